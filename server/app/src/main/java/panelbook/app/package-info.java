/** The Panelbook service; each package below is one part of the domain, and its root is its door. */
@NullMarked
package panelbook.app;

import org.jspecify.annotations.NullMarked;
