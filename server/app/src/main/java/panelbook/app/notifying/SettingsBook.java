package panelbook.app.notifying;

import java.time.Duration;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Refusal;
import panelbook.wire.NotificationSettings;
import panelbook.wire.NotificationSettingsDraft;

/** When people of a facility are told: what was set for it, else the house's defaults. */
@Component
class SettingsBook {

    private static final UUID NO_FACILITY = new UUID(0, 0);
    private static final int YEAR_IN_MINUTES = 525_600;

    private final JdbcClient jdbc;
    private final NotifyingRules rules;

    SettingsBook(JdbcClient jdbc, NotifyingRules rules) {
        this.jdbc = jdbc;
        this.rules = rules;
    }

    /** For alerts of a facility, or of none. */
    NotificationSettings of(@Nullable UUID facilityId) {
        if (facilityId == null) {
            return defaults(NO_FACILITY);
        }
        return jdbc.sql("select * from notification_settings where facility_id = :id")
                .param("id", facilityId)
                .query((row, n) -> new NotificationSettings(
                        facilityId,
                        Rows.intOrNull(row, "escalate_after_minutes"),
                        Rows.intOrNull(row, "remind_every_minutes"),
                        row.getInt("summary_over"),
                        row.getInt("gather_seconds"),
                        false,
                        row.getLong("version")))
                .optional()
                .orElseGet(() -> defaults(facilityId));
    }

    @Transactional(readOnly = true)
    NotificationSettings get(UUID facilityId) {
        mustExist(facilityId);
        return of(facilityId);
    }

    @Transactional
    NotificationSettings edit(UUID facilityId, NotificationSettingsDraft draft, long expectedVersion) {
        check(draft);
        mustExist(facilityId);
        Etags.match(expectedVersion, of(facilityId).version());
        var changed = jdbc.sql("""
                        insert into notification_settings (facility_id, escalate_after_minutes, remind_every_minutes,
                                                           summary_over, gather_seconds, version)
                        values (:id, :escalate, :remind, :over, :gather, 1)
                        on conflict (facility_id) do update
                        set escalate_after_minutes = :escalate, remind_every_minutes = :remind, summary_over = :over,
                            gather_seconds = :gather, version = notification_settings.version + 1
                        where notification_settings.version = :expected
                        """)
                .param("id", facilityId)
                .param("escalate", draft.escalateAfterMinutes())
                .param("remind", draft.remindEveryMinutes())
                .param("over", draft.summaryOver())
                .param("gather", draft.gatherSeconds())
                .param("expected", expectedVersion)
                .update();
        if (changed == 0) {
            throw Etags.stale();
        }
        return of(facilityId);
    }

    private void mustExist(UUID facilityId) {
        if (!Rows.exists(jdbc, "facility", facilityId)) {
            throw Refusal.notFound("facility", facilityId);
        }
    }

    private static void check(NotificationSettingsDraft draft) {
        var checks = new Checks();
        if (draft.escalateAfterMinutes() != null) {
            checks.range("/escalateAfterMinutes", draft.escalateAfterMinutes(), 1, YEAR_IN_MINUTES);
        }
        if (draft.remindEveryMinutes() != null) {
            checks.range("/remindEveryMinutes", draft.remindEveryMinutes(), 5, YEAR_IN_MINUTES);
        }
        checks.range("/summaryOver", draft.summaryOver(), 1, 1000)
                .range("/gatherSeconds", draft.gatherSeconds(), 0, 3600)
                .refuse();
    }

    private NotificationSettings defaults(UUID facilityId) {
        return new NotificationSettings(
                facilityId,
                minutes(rules.escalateAfter()),
                minutes(rules.remindEvery()),
                rules.summaryOver(),
                Math.toIntExact(rules.gather().toSeconds()),
                true,
                0);
    }

    private static @Nullable Integer minutes(Duration time) {
        return time.isZero() ? null : Math.max(1, Math.toIntExact(time.toMinutes()));
    }
}
