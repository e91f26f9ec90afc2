package panelbook.colorimetry.drift;

/** Who moved since the sign-off; see {@link Attribution} for the rule. */
public enum Mover {
    FOLLOWER,
    HERO,
    BOTH,
    NEITHER
}
