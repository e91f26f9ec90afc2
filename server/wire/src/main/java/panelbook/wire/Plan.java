package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Visits laid into calibrators' days and rooms' free hours, as they were when the plan was made.
 *
 * @param facility name; null for every facility
 * @param timeZone IANA name, whose days the plan counts
 * @param dryRun whether it was only asked and proposed nothing
 * @param visits within it, those that were fixed before included, earliest first; when it was asked for days of a calibrator,
 *     by somebody who is not in the book
 * @param moves proposed visits of the plan before that are elsewhere or dropped now
 * @param rest presets that are left beyond tolerance, the gravest first
 * @param gaps rooms without a visit although something is due there
 * @param roomsWithoutCalendar rooms that were taken to be free always, since nobody gave their bookings
 * @param beyondDaysWithout expected days beyond tolerance within the plan, were nobody to come, weighted by importance
 * @param beyondDays expected days beyond tolerance that are left, weighted by importance
 * @param cost these with the prices of visits and moves
 * @param bound no plan of the same rooms, days and hours costs less; null when it was asked for days of a calibrator, since its
 *     visits then keep rooms first
 * @param neededDays null unless it was a dry run, and when nobody works within the plan
 */
public record Plan(
        UUID id,
        @Nullable UUID facilityId,
        @Nullable String facility,
        String timeZone,
        LocalDate from,
        LocalDate until,
        boolean dryRun,
        Instant madeAt,
        String madeBy,
        List<Visit> visits,
        List<PlanMove> moves,
        List<PlanRest> rest,
        List<PlanGap> gaps,
        int roomsWithoutCalendar,
        double beyondDaysWithout,
        double beyondDays,
        double cost,
        @Nullable Double bound,
        @Nullable NeededDays neededDays) {}
