/**
 * Records of the REST contract under {@code /api/v1}, used by the service and by its clients. A record says what is sent,
 * in which unit; what it means is decided in the service. Enums travel as their {@code toString()}. Instants are UTC.
 *
 * <p>A record named {@code …Draft} is what a client sends to add or to edit; its twin without the suffix is what the
 * service answers. A draft's {@code id} is made by the client: sending the same draft again is harmless. {@code version}
 * is the entity's ETag.
 */
@NullMarked
package panelbook.wire;

import org.jspecify.annotations.NullMarked;
