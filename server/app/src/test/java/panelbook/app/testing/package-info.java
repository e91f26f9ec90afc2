/** The whole service for tests: started once, on a real database, with a clock that tests set, spoken to over HTTP. */
@NullMarked
package panelbook.app.testing;

import org.jspecify.annotations.NullMarked;
