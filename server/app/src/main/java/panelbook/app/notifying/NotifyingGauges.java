package panelbook.app.notifying;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.binder.MeterBinder;
import java.time.Clock;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;

/** Figures by which those who run the service see that people are not told. */
@Component
class NotifyingGauges implements MeterBinder {

    private final JdbcClient jdbc;
    private final Clock clock;

    NotifyingGauges(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Override
    public void bindTo(MeterRegistry registry) {
        Gauge.builder("panelbook.messages.open", this, NotifyingGauges::open)
                .description("Messages to channels that did not arrive yet")
                .register(registry);
        Gauge.builder("panelbook.messages.oldest.open", this, NotifyingGauges::oldestOpen)
                .description("Age of the oldest message that did not arrive yet")
                .baseUnit("seconds")
                .register(registry);
        Gauge.builder("panelbook.messages.given.up", this, NotifyingGauges::givenUp)
                .description("Messages that were given up")
                .register(registry);
    }

    private double open() {
        return count(Messages.OPEN);
    }

    private double givenUp() {
        return count("m.given_up_at is not null and m.kind <> 'test'");
    }

    private double count(String condition) {
        return jdbc.sql("select count(*) from message m where " + condition)
                .query(Long.class)
                .single();
    }

    private double oldestOpen() {
        return jdbc.sql("""
                        select coalesce(extract(epoch from :now::timestamptz - min(m.created_at)), 0)::float8
                        from message m where\s""" + Messages.OPEN)
                .param("now", Rows.at(clock.instant()))
                .query(Double.class)
                .single();
    }
}
