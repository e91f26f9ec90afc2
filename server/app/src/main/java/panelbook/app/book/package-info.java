/**
 * What all parts share about the rows of the book: the guards of a row that people edit, lists by sort key, times as the
 * database takes them. It knows no table.
 */
@ApplicationModule(type = ApplicationModule.Type.OPEN)
@NullMarked
package panelbook.app.book;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
