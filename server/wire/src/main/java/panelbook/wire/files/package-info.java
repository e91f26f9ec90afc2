/**
 * Run files: what an instrument's readings look like on disk, read whole or refused with everything that is wrong, and
 * written back without loss. Two formats, told apart by content: CSV with a header row, and the text form of ISO 28178.
 *
 * <p>The package ends at the file: it knows no service, no database and no target. Whether a preset of that name exists,
 * or a patch makes sense for its target, is for others to judge; the code range is checked when the caller knows it.
 *
 * <p>Input is any stream of bytes, of any size; a reader holds one line and the readings, never the file. Output is
 * either a {@link panelbook.wire.files.RunFile} whose every value is in range, or the list of
 * {@link panelbook.wire.files.RunFileProblem problems}.
 */
@NullMarked
package panelbook.wire.files;

import org.jspecify.annotations.NullMarked;
