package panelbook.app.notifying;

import jakarta.mail.internet.AddressException;
import jakarta.mail.internet.InternetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.security.SecureRandom;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.app.rest.Words;
import panelbook.wire.AlertCause;
import panelbook.wire.Channel;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelKind;
import panelbook.wire.NewChannel;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** All channels, retired ones included. */
@Component
class Channels {

    private static final int MOST_ADDRESSES = 50;
    private static final int SECRET_BYTES = 32;
    private static final SecureRandom RANDOM = new SecureRandom();
    private static final Query.Key<Channel> KEY = new Query.Key<>(Channel::name, Channel::id);

    private static final String SELECT = """
            select c.*, w.waiting, f.last_error, f.not_before, g.given_up
            from channel c
            left join lateral (select count(*) as waiting from notification n left join message m on m.id = n.message_id
                               where n.channel_id = c.id
                                 and (n.state = 'waiting' or (n.state = 'in-message' and %s))) w on true
            left join lateral (select m.last_error, m.not_before from message m
                               where m.channel_id = c.id and %s order by m.seq limit 1) f on true
            left join lateral (select count(*) as given_up from message m
                               where m.channel_id = c.id and m.given_up_at is not null and m.kind <> 'test') g on true
            """.formatted(Messages.OPEN, Messages.OPEN);

    private final JdbcClient jdbc;
    private final MailSenderOfService mail;
    private final Clock clock;

    Channels(JdbcClient jdbc, MailSenderOfService mail, Clock clock) {
        this.jdbc = jdbc;
        this.mail = mail;
        this.clock = clock;
    }

    /** Adds a channel; the same draft again is harmless, but shows no secret. */
    @Transactional
    Added<NewChannel> add(ChannelDraft draft) {
        check(draft);
        var there = find(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(says(there.get(), draft), "channel", draft.id());
            return new Added<>(new NewChannel(there.get(), null), false);
        }
        mustBeAbleTo(draft);
        write(draft, """
                insert into channel (id, name, kind, facility_id, causes, escalations_only, addresses, url)
                values (:id, :name, :kind, :facility, :causes, :only, :addresses, :url)
                """);
        var secret = draft.kind() == ChannelKind.WEBHOOK ? newSecret(draft.id()) : null;
        return new Added<>(new NewChannel(get(draft.id()), secret), true);
    }

    @Transactional
    Channel edit(UUID id, ChannelDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        lock(id);
        var channel = get(id);
        mustBeInUse(channel);
        Etags.match(expectedVersion, channel.version());
        if (channel.kind() != draft.kind()) {
            throw Refusal.invalid("/kind", "A channel stays what it is, " + channel.kind() + ": add another one.");
        }
        mustBeAbleTo(draft);
        write(draft, """
                update channel set name = :name, facility_id = :facility, causes = :causes, escalations_only = :only,
                                   addresses = :addresses, url = :url, version = version + 1
                where id = :id and :kind = kind
                """);
        return get(id);
    }

    /** From now on nobody is told by this channel; what waits is not sent any more. */
    @Transactional
    Channel retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        lock(id);
        if (get(id).retiredAt() == null) {
            jdbc.sql("""
                            update channel set retired_at = :now, retirement_reason = :reason, version = version + 1
                            where id = :id
                            """)
                    .param("id", id)
                    .param("now", Rows.at(clock.instant()))
                    .param("reason", retirement.reason())
                    .update();
        }
        return get(id);
    }

    @Transactional(readOnly = true)
    Channel get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("channel", id));
    }

    @Transactional(readOnly = true)
    Page<Channel> page(@Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("c.name = :name", "name", name)
                .retired(retired, "c.retired_at")
                .page(jdbc, Channels::channel, paging, "c.name", "c.id", KEY);
    }

    static void mustBeInUse(Channel channel) {
        if (channel.retiredAt() != null) {
            throw Refusal.conflict("The channel \"" + channel.name() + "\" is retired: its record stays as it is.");
        }
    }

    private void lock(UUID id) {
        jdbc.sql("select 1 from channel where id = :id for update")
                .param("id", id)
                .query(row -> {});
    }

    private Optional<Channel> find(UUID id) {
        return new Query(SELECT).where("c.id = :id", "id", id).one(jdbc, Channels::channel);
    }

    private void write(ChannelDraft draft, String sql) {
        jdbc.sql(sql)
                .param("id", draft.id())
                .param("name", draft.name())
                .param("kind", draft.kind().toString())
                .param("facility", draft.facilityId())
                .param(
                        "causes",
                        draft.causes().stream().map(AlertCause::toString).toArray(String[]::new))
                .param("only", draft.escalationsOnly())
                .param("addresses", draft.addresses().toArray(new String[0]))
                .param("url", draft.url())
                .update();
    }

    private String newSecret(UUID id) {
        var secret = new byte[SECRET_BYTES];
        RANDOM.nextBytes(secret);
        jdbc.sql("insert into channel_secret (channel_id, secret) values (:id, :secret)")
                .param("id", id)
                .param("secret", secret)
                .update();
        return WebhookSignature.shown(secret);
    }

    private static void check(ChannelDraft draft) {
        var checks = new Checks().name("/name", draft.name());
        checks.that(draft.causes().size() <= AlertCause.values().length, "/causes", "Names a cause twice.");
        var mailed = draft.kind() == ChannelKind.EMAIL;
        checks.that(
                draft.addresses().isEmpty() != mailed && draft.addresses().size() <= MOST_ADDRESSES,
                "/addresses",
                mailed
                        ? "Give 1 to " + MOST_ADDRESSES + " addresses to mail to."
                        : "A webhook has no addresses of mail.");
        for (var i = 0; i < Math.min(draft.addresses().size(), MOST_ADDRESSES); i++) {
            address(checks, "/addresses/" + i, draft.addresses().get(i));
        }
        checks.that((draft.url() == null) == mailed, "/url", mailed ? "Mail has no URL." : "Give the URL to send to.");
        if (draft.url() != null) {
            url(checks, draft.url());
        }
        checks.refuse();
    }

    private static void address(Checks checks, String pointer, String address) {
        checks.line(pointer, address, 254);
        try {
            var parsed = new InternetAddress(address, true);
            checks.that(
                    parsed.getAddress().equals(address) && address.indexOf('@') > 0,
                    pointer,
                    "Give the address alone, e.g. engineer@facility.example.");
        } catch (AddressException notOne) {
            checks.that(false, pointer, "\"" + address + "\" is no address of mail, e.g. engineer@facility.example.");
        }
    }

    private static void url(Checks checks, String url) {
        checks.line("/url", url, 2000);
        try {
            var parsed = new URI(url);
            var scheme = parsed.getScheme() == null ? "" : parsed.getScheme().toLowerCase(Locale.ROOT);
            checks.that(
                    (scheme.equals("https") || scheme.equals("http"))
                            && parsed.getHost() != null
                            && parsed.getPort() < 65_536,
                    "/url",
                    "Must be an address such as https://receiver.example/alerts.");
            checks.that(
                    parsed.getRawUserInfo() == null && parsed.getRawFragment() == null,
                    "/url",
                    "Must hold neither a user nor a fragment: the signature tells the receiver who sends.");
        } catch (URISyntaxException notOne) {
            checks.that(false, "/url", "\"" + url + "\" is no URL: " + notOne.getReason() + ".");
        }
    }

    private void mustBeAbleTo(ChannelDraft draft) {
        var lack = draft.kind() == ChannelKind.EMAIL ? mail.lack() : null;
        if (lack != null) {
            throw Refusal.conflict(lack);
        }
        if (draft.facilityId() != null && !Rows.exists(jdbc, "facility", draft.facilityId())) {
            throw Refusal.invalid("/facilityId", "There is no such facility.");
        }
    }

    private static boolean says(Channel there, ChannelDraft draft) {
        return new ChannelDraft(
                        there.id(),
                        there.name(),
                        there.kind(),
                        there.facilityId(),
                        there.causes(),
                        there.escalationsOnly(),
                        there.addresses(),
                        there.url())
                .equals(draft);
    }

    private static Channel channel(ResultSet row, int n) throws SQLException {
        var error = row.getString("last_error");
        return new Channel(
                Rows.id(row, "id"),
                row.getString("name"),
                Words.of(ChannelKind.class, row.getString("kind")),
                Rows.idOrNull(row, "facility_id"),
                causes(row),
                row.getBoolean("escalations_only"),
                Messages.texts(row.getArray("addresses")),
                row.getString("url"),
                Rows.instantOrNull(row, "retired_at"),
                row.getLong("waiting"),
                error,
                error == null ? null : Rows.instantOrNull(row, "not_before"),
                row.getLong("given_up"),
                row.getLong("version"));
    }

    private static List<AlertCause> causes(ResultSet row) throws SQLException {
        return Messages.texts(row.getArray("causes")).stream()
                .map(word -> Words.of(AlertCause.class, word))
                .toList();
    }
}
