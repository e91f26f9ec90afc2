package panelbook.colorimetry.trim;

import panelbook.colorimetry.Require;

/**
 * What black may rise to.
 *
 * @param now luminance of black as the controls stand, cd/m2, greater than zero
 * @param tolerated luminance that black may have, cd/m2, greater than zero
 */
public record Floor(double now, double tolerated) {
    public Floor {
        Require.positive("luminance of black in cd/m2", now);
        Require.positive("tolerated luminance of black in cd/m2", tolerated);
    }

    /** How far the logarithm may rise: not at all when black is too bright as it is. */
    double room() {
        return Math.max(Math.log(tolerated / now), 0);
    }
}
