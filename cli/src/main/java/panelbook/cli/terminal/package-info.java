/**
 * What lies between the command and the person or pipe before it: streams, clock, environment, the printer, exit codes
 * and kinds of failure. Knows nothing of the service.
 */
@NullMarked
package panelbook.cli.terminal;

import org.jspecify.annotations.NullMarked;
