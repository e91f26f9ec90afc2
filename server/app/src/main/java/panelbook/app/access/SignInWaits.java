package panelbook.app.access;

import java.nio.ByteBuffer;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;

/**
 * Who has to wait before trying to sign in again, for all instances alike. From the fifth failure in a row a name waits 30 s, then
 * twice as long each time up to an hour; an address from the thirtieth on. NIST SP 800-63B 5.2.2 (from memory) gives 30 seconds to an
 * hour as its example of growing waits, and asks for no more than 100 failures in a row, which at these takes some four days.
 *
 * <p>Nobody can lock somebody else out for good: tries during a wait count for nothing, and where somebody came in before within the
 * last 30 days, strangers' failures elsewhere do not count. A name that nobody has waits like others.
 */
@Component
class SignInWaits {

    private static final int FREE_BY_NAME = 4;
    private static final int FREE_BY_ADDRESS = 29;
    private static final long FIRST_SECONDS = 30;
    private static final long LONGEST_SECONDS = 3600;
    private static final Duration MEMORY = Duration.ofDays(1);

    private final JdbcClient jdbc;
    private final Clock clock;

    SignInWaits(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** What a try is counted by: the name (with the address where it is familiar), and the address; both as hashes. */
    record Tried(byte[] name, byte[] address) {

        static Tried name(String name, String address, boolean familiar) {
            var folded = "name " + name.toLowerCase(Locale.ROOT);
            return new Tried(Secrets.hash(familiar ? folded + "\n" + address : folded), ofAddress(address));
        }

        /** Tokens cannot be guessed one by one: only whoever tries many of them waits. */
        static Tried token(String address) {
            return new Tried(new byte[0], ofAddress(address));
        }

        private static byte[] ofAddress(String address) {
            return Secrets.hash("address " + Addresses.neighbourhood(address));
        }
    }

    /**
     * Counts a try as failed before anybody looks whether it is right, so that many at once are as many; says how long to wait instead
     * where a wait is under way.
     */
    @Transactional
    Optional<Duration> begin(Tried tried) {
        var now = clock.instant();
        forgetOld(now);
        // always in the same order, so that two tries cannot wait for each other
        var until = ordered(tried).map(this::locked).flatMap(Optional::stream).max(Instant::compareTo);
        if (until.isPresent() && until.get().isAfter(now)) {
            return Optional.of(Duration.between(now, until.get()));
        }
        if (tried.name().length > 0) {
            count(tried.name(), FREE_BY_NAME, now);
        }
        count(tried.address(), FREE_BY_ADDRESS, now);
        return Optional.empty();
    }

    /** It was right: the name is free again, and the address as if this try had not been. */
    @Transactional
    void succeeded(Tried tried) {
        jdbc.sql("delete from sign_in_wait where tried = ?").param(tried.name()).update();
        jdbc.sql("delete from sign_in_wait where tried = ? and failures = 1")
                .param(tried.address())
                .update();
        jdbc.sql("""
                        update sign_in_wait set failures = failures - 1,
                               wait_until = case when failures - 1 > :free then wait_until end
                        where tried = :tried""")
                .param("tried", tried.address())
                .param("free", FREE_BY_ADDRESS)
                .update();
    }

    private Stream<byte[]> ordered(Tried tried) {
        return Stream.of(tried.name(), tried.address())
                .filter(key -> key.length > 0)
                .sorted((a, b) -> ByteBuffer.wrap(a).compareTo(ByteBuffer.wrap(b)));
    }

    /**
     * Until when it waits. Nobody else looks until this try is counted: many at once must not all be the first, neither at the end of a
     * wait nor where no failure is kept, and so no row is there that could be held.
     */
    private Optional<Instant> locked(byte[] tried) {
        jdbc.sql("select pg_advisory_xact_lock(?)")
                .param(ByteBuffer.wrap(tried).getLong())
                .query(row -> {});
        return jdbc.sql("select wait_until from sign_in_wait where tried = ?")
                .param(tried)
                .query((row, n) -> Optional.ofNullable(Rows.instantOrNull(row, "wait_until")))
                .optional()
                .flatMap(wait -> wait);
    }

    private void count(byte[] tried, int free, Instant now) {
        var failures = jdbc.sql("""
                        insert into sign_in_wait (tried, failures, last_at) values (:tried, 1, :now)
                        on conflict (tried) do update set failures = sign_in_wait.failures + 1, last_at = :now
                        returning failures""")
                .param("tried", tried)
                .param("now", Rows.at(now))
                .query(Integer.class)
                .single();
        if (failures > free) {
            jdbc.sql("update sign_in_wait set wait_until = ? where tried = ?")
                    .param(Rows.at(now.plusSeconds(seconds(failures - free))))
                    .param(tried)
                    .update();
        }
    }

    private static long seconds(int beyondFree) {
        // 30 s times 2^7 is more than an hour already
        return Math.min(LONGEST_SECONDS, FIRST_SECONDS << Math.min(beyondFree - 1, 7));
    }

    private void forgetOld(Instant now) {
        jdbc.sql("""
                        delete from sign_in_wait where tried in (
                            select tried from sign_in_wait where last_at < ? limit 100 for update skip locked)""").param(Rows.at(now.minus(MEMORY))).update();
    }
}
