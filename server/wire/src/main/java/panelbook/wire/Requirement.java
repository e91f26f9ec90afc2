package panelbook.wire;

/** What must be true before a match. */
public enum Requirement {
    /** The follower has an as-left baseline that is fresh by the policy. */
    FOLLOWER_BASELINE,
    /** The hero has one. */
    HERO_BASELINE,
    /** Both presets aim at one target, so at one signal range. */
    SAME_TARGET,
    /** The latest ramp of the follower shows no fault of its signal path. */
    FOLLOWER_SIGNAL_PATH,
    /** That of the hero shows none. */
    HERO_SIGNAL_PATH,
    /** The contrasts of both do not disagree by far. */
    CONTRAST,
    /** The follower has warmed up. */
    FOLLOWER_WARM_UP,
    /** The hero has warmed up. */
    HERO_WARM_UP,
    /** The certificate of the meter in hand is valid. */
    METER,
    /** The lights are at viewing level. */
    VIEWING_LIGHT;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
