package panelbook.colorimetry.correction;

/** The colours that the method rests on. */
public enum FourColour {
    RED,
    GREEN,
    BLUE,
    WHITE
}
