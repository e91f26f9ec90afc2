package panelbook.demo;

import java.time.Instant;
import java.util.List;
import panelbook.wire.Trim;

/**
 * A match that the operator signed.
 *
 * @param follower path of its preset
 * @param hero path of its preset
 * @param operator who
 * @param signedAt when
 * @param trims in force from then on
 */
public record DemoSignOff(String follower, String hero, String operator, Instant signedAt, List<Trim> trims) {}
