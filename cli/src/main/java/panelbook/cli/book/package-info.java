/**
 * A whole facility in one YAML or CSV file: reading with line and field in every error, and writing a file that enters to
 * the same. What entering does is decided in the service. Other CSV files of the client are read by the same rules.
 */
@NullMarked
package panelbook.cli.book;

import org.jspecify.annotations.NullMarked;
