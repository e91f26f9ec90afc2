package panelbook.colorimetry.verification;

import panelbook.colorimetry.signal.Patch;

/**
 * The value that is farthest from right, and where.
 *
 * @param value with its sign where it has one
 * @param patch the patch it stands for
 */
public record Worst(double value, Patch patch) {}
