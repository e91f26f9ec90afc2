/**
 * The web board: pages for those who would rather look than read tables in a terminal. It asks the other parts and works nothing out
 * itself; what it lets people change goes through the same doors as the REST contract.
 */
@NullMarked
package panelbook.app.board;

import org.jspecify.annotations.NullMarked;
