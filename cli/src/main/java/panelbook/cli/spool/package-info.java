/**
 * Runs that could not be sent yet, kept durably in the order they came, sent in that order, each once in effect. A run
 * that the service refuses is set aside with the reason and never deleted.
 */
@NullMarked
package panelbook.cli.spool;

import org.jspecify.annotations.NullMarked;
