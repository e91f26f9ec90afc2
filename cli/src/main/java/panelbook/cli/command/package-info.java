/** The commands, one class each with its options, its wiring and its work, and the catalogue that finds them. */
@NullMarked
package panelbook.cli.command;

import org.jspecify.annotations.NullMarked;
