/**
 * Matches under way as this machine keeps them: the words of a step, a journal per match, and the sending of what the
 * service does not have yet. Ends before the terminal: it prints nothing and asks nobody.
 */
@NullMarked
package panelbook.cli.match;

import org.jspecify.annotations.NullMarked;
