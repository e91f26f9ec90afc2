package panelbook.wire;

/** What a series of a drawing is; its shape in the chart follows from it, never a hue. */
public enum SeriesKind {
    /** Readings that count. */
    READINGS(Form.MARKS),
    /** Readings in the order in which they were taken, joined by a line. */
    TRAIL(Form.MARKS),
    /** Readings of runs that are or were baselines. */
    BASELINES(Form.MARKS),
    /** Readings that are shown but not counted in. */
    LEFT_OUT(Form.MARKS),
    /** Readings whose place is in doubt. */
    DOUBTFUL(Form.MARKS),
    /** What the hero measures. */
    HERO(Form.MARKS),
    /** What is aimed at. */
    AIM(Form.MARKS),
    /** What was agreed with an operator. */
    AGREED(Form.MARKS),
    /** A line or curve through readings. */
    TREND(Form.LINE),
    /** A curve that is aimed at. */
    AIM_CURVE(Form.LINE),
    /** A value that is not to be crossed. */
    LIMIT(Form.LINE),
    /** A value to compare with. */
    REFERENCE(Form.LINE),
    /** For orientation, such as the bounds of what can be seen at all. */
    SURROUNDINGS(Form.LINE),
    /** The corners of what was measured. */
    MEASURED_OUTLINE(Form.OUTLINE),
    /** The corners of what is aimed at. */
    AIM_OUTLINE(Form.OUTLINE),
    /** Something that happens at a value of the x axis; y says where it belongs. */
    MOMENT(Form.MOMENT),
    /** Between the yLow and yHigh of its points: what is tolerated. */
    TOLERANCE(Form.BAND),
    /** Between the yLow and yHigh of its points: where the truth is expected. */
    BAND(Form.BAND),
    /** The ellipse that xLow, xHigh, yLow and yHigh of its points enclose: what is tolerated. */
    TOLERANCE_REGION(Form.REGION),
    /** Such an ellipse: where the truth is expected. */
    UNCERTAINTY_REGION(Form.REGION);

    /** How the points of a series belong together. */
    public enum Form {
        /** Each for itself. */
        MARKS,
        /** Joined in their order. */
        LINE,
        /** Joined in their order, and the last with the first. */
        OUTLINE,
        /** Upright lines. */
        MOMENT,
        /** Edges of an area. */
        BAND,
        /** Ellipses. */
        REGION
    }

    private final String word = Word.of(this);
    private final Form form;

    SeriesKind(Form form) {
        this.form = form;
    }

    /** How its points belong together. */
    public Form form() {
        return form;
    }

    /** The word used on the wire. */
    @Override
    public String toString() {
        return word;
    }
}
