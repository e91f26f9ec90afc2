/**
 * A run against its target: what each patch should show, how far it is off, and the figures of the whole run. It ends at
 * figures; whether they are good enough is decided elsewhere.
 *
 * <p>A figure that the run cannot give is absent, with the reason among the remarks; none is ever NaN.
 */
@NullMarked
package panelbook.colorimetry.verification;

import org.jspecify.annotations.NullMarked;
