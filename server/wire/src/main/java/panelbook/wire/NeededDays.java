package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How many days of a calibrator keep the rooms of a plan within tolerance. A room is kept when it is visited by the day on which
 * the first of its presets is due. The days are those of a calibrator who knows every display, is at home where most of the rooms
 * are and works the hours of whoever works most; they are spread evenly over the plan. What people confirmed or pinned stays
 * with them.
 *
 * @param there days on which the calibrators of the plan work, counted for each
 * @param enough the fewest that were found to be enough to keep all rooms but those that are late anyhow, and to visit these;
 *     null when not even the most that were tried are
 * @param atLeast fewer than that cannot be enough, spread so: proven
 * @param tried numbers of days that were tried, rising, and what they leave
 * @param lateAnyhow rooms, facility/room, that no number of days keeps
 * @param asked what the days that were asked about leave; null when none were
 */
public record NeededDays(
        int there,
        @Nullable Integer enough,
        int atLeast,
        List<TriedDays> tried,
        List<String> lateAnyhow,
        @Nullable AskedDays asked) {}
