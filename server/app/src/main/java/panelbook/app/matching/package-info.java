/**
 * Matches of followers to their heroes: the sign-off with its agreed offset and trims, which of them are in force, and
 * which rest on baselines that are no longer.
 */
@NullMarked
package panelbook.app.matching;

import org.jspecify.annotations.NullMarked;
