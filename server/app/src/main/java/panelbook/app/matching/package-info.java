/**
 * Matches of followers to their heroes: what happens in the room step by step, the sign-off with its agreed offset and trims,
 * which matches are in force and which rest on baselines that are no longer, what clicks do and which to try. Whether a
 * display drifted from what was signed off is judged elsewhere.
 */
@NullMarked
package panelbook.app.matching;

import org.jspecify.annotations.NullMarked;
