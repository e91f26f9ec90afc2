/** The board in a real browser, over the service and its database. Screenshots of every page lie in {@code target/screenshots} afterwards. */
@NullMarked
package panelbook.app.browser;

import org.jspecify.annotations.NullMarked;
