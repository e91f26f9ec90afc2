/**
 * The room sheet: everything that is asked on arrival in a room, gathered from the other parts and put side by side. It
 * judges nothing and keeps nothing.
 */
@NullMarked
package panelbook.app.sheet;

import org.jspecify.annotations.NullMarked;
