package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A plan to make.
 *
 * @param facilityId only its rooms; null for every facility
 * @param from first day; null for today
 * @param until last day
 * @param dryRun whether to answer only, proposing nothing
 * @param calibratorDays what so many days of a calibrator would keep, whoever works, from 0 to 1,000; null not to ask; for a dry run only
 */
public record PlanDraft(
        UUID id,
        @Nullable UUID facilityId,
        @Nullable LocalDate from,
        LocalDate until,
        boolean dryRun,
        @Nullable Integer calibratorDays) {}
