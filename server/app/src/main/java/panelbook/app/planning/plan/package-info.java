/**
 * Lays visits into calibrators' days and rooms' free hours. Pure: no database, no clock, no Spring; times are whole minutes
 * from the start of the problem. What a visit is worth is worked out by whoever asks.
 *
 * <p>The search is our own, ruin and recreate with annealing and a descent at the end, beside a Lagrangian bound. A general
 * constraint solver was weighed: it finds plans, but tells no bound, which must then be made here all the same, and brings
 * code generation, byte-code and XML libraries to a service that should start fast. What it would spare is small, since a
 * shift holds a handful of visits, and once their order is known their earliest times are the best. A linear-programming
 * library was weighed for the bound: prices adjusted by subgradients come near in a few seconds, and any prices give a
 * valid bound, so that a cut in time costs nearness, never truth.
 */
@NullMarked
package panelbook.app.planning.plan;

import org.jspecify.annotations.NullMarked;
