package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * What a chart of a preset shows, as data: chart, table and paper are made of the same.
 *
 * @param preset facility/room/display/preset
 * @param title for people
 * @param summary what there is to be seen, in a few sentences
 * @param equalScale whether a step along one axis is as long as the same step along the other
 * @param series empty where there is nothing to draw: the summary says why
 */
public record Drawing(
        DrawingName name,
        UUID presetId,
        String preset,
        String title,
        String summary,
        DrawingAxis x,
        DrawingAxis y,
        boolean equalScale,
        List<DrawingSeries> series) {}
