/**
 * Papers: what is printed and kept, as PDF made from the same kind of templates as the pages. It lays out what others hand it and
 * knows nothing of the domain.
 */
@NullMarked
package panelbook.app.papers;

import org.jspecify.annotations.NullMarked;
