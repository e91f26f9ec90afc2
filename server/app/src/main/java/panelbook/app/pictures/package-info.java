/**
 * The charts that there are of a preset: gathers through the other parts' doors what each shows, and says it in words. It judges
 * nothing and keeps nothing; {@code drawing} draws.
 */
@NullMarked
package panelbook.app.pictures;

import org.jspecify.annotations.NullMarked;
