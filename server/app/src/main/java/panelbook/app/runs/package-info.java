/**
 * Runs and their readings: taken in whole or not at all, kept for ever, answered the same way each time. What a run means
 * is judged elsewhere, through {@link panelbook.app.runs.RunJudge}.
 */
@NullMarked
package panelbook.app.runs;

import org.jspecify.annotations.NullMarked;
