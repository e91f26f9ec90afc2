package panelbook.wire.files;

import panelbook.wire.ReadingEntry;

/**
 * One measured patch of a run file.
 *
 * @param red code value sent to the display, 0 to 65535
 * @param green code value sent to the display, 0 to 65535
 * @param blue code value sent to the display, 0 to 65535
 * @param x tristimulus X, absolute, in cd/m²; finite and not negative
 * @param y tristimulus Y (the luminance), absolute, in cd/m²; finite and not negative
 * @param z tristimulus Z, absolute, in cd/m²; finite and not negative
 * @param line line of the file that it was read from, from 1; 0 when it was not read from a file
 */
public record FileReading(int red, int green, int blue, double x, double y, double z, long line) {

    public FileReading {
        code("red", red);
        code("green", green);
        code("blue", blue);
        x = tristimulus("x", x);
        y = tristimulus("y", y);
        z = tristimulus("z", z);
        if (line < 0) {
            throw new IllegalArgumentException("line is " + line + ": lines count from 1, 0 stands for no file");
        }
    }

    /** The same as it is sent to the service. */
    public ReadingEntry entry() {
        return new ReadingEntry(red, green, blue, x, y, z);
    }

    private static void code(String name, int value) {
        if (value < 0 || value > CodeRange.MAX_CODE) {
            throw new IllegalArgumentException(name + " is " + value + ": code values run from 0 to 65535");
        }
    }

    private static double tristimulus(String name, double value) {
        if (!(value >= 0 && value <= Double.MAX_VALUE)) {
            throw new IllegalArgumentException(
                    name + " is " + value + " cd/m²: a tristimulus value is finite and not negative");
        }
        return value + 0.0; // turns -0.0 into 0.0, so that equal readings have equal bits
    }
}
