/**
 * Loads a running service through its own door, and the PostgreSQL under it beside that, in one run: what is compared was
 * measured on the same machine within the same minutes. For a scratch data folder only, since it seeds what it needs.
 */
@NullMarked
package panelbook.bench.load;

import org.jspecify.annotations.NullMarked;
