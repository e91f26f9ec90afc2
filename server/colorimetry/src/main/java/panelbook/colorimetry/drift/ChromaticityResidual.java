package panelbook.colorimetry.drift;

/**
 * Chromaticity of follower and hero, as vectors in u'v'.
 *
 * @param agreed follower minus hero at sign-off
 * @param now follower minus hero now
 * @param residual now less agreed
 * @param followerMovement now minus then of the follower
 * @param heroMovement now minus then of the hero
 * @param attribution who moved
 */
public record ChromaticityResidual(
        UvShift agreed,
        UvShift now,
        UvShift residual,
        UvShift followerMovement,
        UvShift heroMovement,
        Attribution attribution) {

    static ChromaticityResidual of(Quartet q) {
        UvShift residual = UvShift.of(q.all(), 1, -1, -1, 1);
        UvShift follower = UvShift.of(q.follower(), 1, -1);
        UvShift hero = UvShift.of(q.hero(), 1, -1);
        return new ChromaticityResidual(
                UvShift.of(q.then(), 1, -1),
                UvShift.of(q.now(), 1, -1),
                residual,
                follower,
                hero,
                Attribution.ofVectors(residual, follower, hero));
    }
}
