package panelbook.wire;

/**
 * A token just made.
 *
 * @param secret shown this once; only its hash is kept
 */
public record NewToken(Token token, String secret) {}
