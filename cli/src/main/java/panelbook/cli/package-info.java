/**
 * The {@code panelbook} command: arguments in, exit code out. Starts the chosen command and turns failures into one line
 * and a code; what commands do lies in {@code command}.
 */
@NullMarked
package panelbook.cli;

import org.jspecify.annotations.NullMarked;
