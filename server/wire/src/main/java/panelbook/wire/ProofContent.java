package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * What a proof says: a room on a day, as the book stood at a moment. Numbers are rounded to six significant digits. Who asked and when is
 * no part of it, so that asking again of the same moment gives the same content.
 *
 * @param version of its form; content of another version cannot be compared
 * @param timeZone of the room, IANA name
 * @param day in that zone
 * @param from start of the day
 * @param asOf the moment that all figures are of: the last of the day, or an earlier one where it was asked for on the day itself
 * @param wholeDay whether the day was over
 * @param state of the room at that moment
 * @param reasons behind it, worst first
 * @param readiness over the day until that moment
 * @param targets that presets of the room aimed at, by name
 * @param displays that stood in the room, by name
 * @param instruments used lately on the room's presets, or for a baseline in force, by name
 * @param matches in force, by follower and operator
 * @param alerts open, newest first
 */
public record ProofContent(
        int version,
        UUID roomId,
        String facility,
        String room,
        String timeZone,
        LocalDate day,
        Instant from,
        Instant asOf,
        boolean wholeDay,
        ReadinessState state,
        List<Reason> reasons,
        List<ReadinessSpan> readiness,
        List<ProofTarget> targets,
        List<ProofDisplay> displays,
        List<ProofInstrument> instruments,
        List<ProofMatch> matches,
        List<ProofAlert> alerts) {}
