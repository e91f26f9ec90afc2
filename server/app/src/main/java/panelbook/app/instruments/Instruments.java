package panelbook.app.instruments;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.app.rest.Words;
import panelbook.wire.Certificate;
import panelbook.wire.CertificateDraft;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** All instruments. All methods refuse an id that is not in the book. */
@Component
public class Instruments {

    private static final String SELECT = """
            select i.id, i.name, i.kind, i.serial_number, i.luminance_uncertainty, i.luminance_repeatability,
                   i.chromaticity_uncertainty, i.chromaticity_repeatability, i.luminance_floor, i.retired_at, i.version,
                   c.id as certificate_id, c.number, c.issued_on, c.expires_on, c.recorded_by
            from instrument i
            left join lateral (select c.* from instrument_certificate c where c.instrument_id = i.id
                               order by c.expires_on desc, c.issued_on desc, c.id limit 1) c on true""";
    private static final String CERTIFICATES = """
            select c.id as certificate_id, c.instrument_id as id, c.number, c.issued_on, c.expires_on, c.recorded_by
            from instrument_certificate c""";
    private static final Query.Key<Instrument> KEY = new Query.Key<>(Instrument::name, Instrument::id);

    private final InstrumentRows rows;
    private final JdbcClient jdbc;
    private final Clock clock;

    Instruments(InstrumentRows rows, JdbcClient jdbc, Clock clock) {
        this.rows = rows;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Adds a draft; the same draft again is harmless. */
    @Transactional
    public Added<Instrument> add(InstrumentDraft draft) {
        check(draft);
        var there = rows.findById(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(there.get().draft().equals(draft), "instrument", draft.id());
            return new Added<>(get(draft.id()), false);
        }
        rows.saveAndFlush(new InstrumentRow(draft));
        return new Added<>(get(draft.id()), true);
    }

    /** Edits the version that was read. */
    @Transactional
    public Instrument edit(UUID id, InstrumentDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        var row = row(id);
        row.mustBeAt(expectedVersion);
        row.edit(draft);
        rows.saveAndFlush(row);
        return get(id);
    }

    @Transactional
    Instrument retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        var row = row(id);
        row.retire(clock.instant(), retirement.reason());
        rows.saveAndFlush(row);
        return get(id);
    }

    /** An instrument with the certificate that expires last. */
    @Transactional(readOnly = true)
    public Instrument get(UUID id) {
        return new Query(SELECT)
                .where("i.id = :id", "id", id)
                .one(jdbc, Instruments::instrument)
                .orElseThrow(() -> Refusal.notFound("instrument", id));
    }

    /** An instrument by its name, retired or not. */
    @Transactional(readOnly = true)
    public Optional<Instrument> find(String name) {
        return new Query(SELECT).where("i.name = :name", "name", name).one(jdbc, Instruments::instrument);
    }

    /** All instruments in use, by name. */
    @Transactional(readOnly = true)
    public List<Instrument> inUse() {
        return new Query(SELECT).where("i.retired_at is null").list(jdbc, Instruments::instrument, "i.name");
    }

    @Transactional(readOnly = true)
    Page<Instrument> page(@Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("i.name = :name", "name", name)
                .retired(retired, "i.retired_at")
                .page(jdbc, Instruments::instrument, paging, "i.name", "i.id", KEY);
    }

    /** Adds a certificate; a certificate once entered stays as it is, and the same one again is harmless. */
    @Transactional
    public Added<Certificate> addCertificate(UUID instrumentId, CertificateDraft draft) {
        InstrumentChecks.certificate(new Checks(), "", draft.number(), draft.issuedOn(), draft.expiresOn())
                .refuse();
        row(instrumentId).mustBeInUse();
        var there =
                new Query(CERTIFICATES).where("c.id = :id", "id", draft.id()).one(jdbc, Instruments::certificate);
        if (there.isPresent()) {
            var found = there.get();
            var same = found.instrumentId().equals(instrumentId)
                    && draft.equals(
                            new CertificateDraft(found.id(), found.number(), found.issuedOn(), found.expiresOn()));
            Repeats.mustBeSame(same, "certificate", draft.id());
            return new Added<>(found, false);
        }
        jdbc.sql("""
                        insert into instrument_certificate (id, instrument_id, number, issued_on, expires_on, recorded_at,
                                                            recorded_by)
                        values (?, ?, ?, ?, ?, ?, ?)""")
                .param(draft.id())
                .param(instrumentId)
                .param(draft.number())
                .param(draft.issuedOn())
                .param(draft.expiresOn())
                .param(Rows.at(clock.instant()))
                .param(Caller.current().holder())
                .update();
        var added = new Certificate(
                draft.id(),
                instrumentId,
                draft.number(),
                draft.issuedOn(),
                draft.expiresOn(),
                Caller.current().holder());
        return new Added<>(added, true);
    }

    /** All certificates of an instrument, the one that expires last first. */
    @Transactional(readOnly = true)
    public List<Certificate> certificates(UUID instrumentId) {
        row(instrumentId);
        return new Query(CERTIFICATES)
                .where("c.instrument_id = :instrument", "instrument", instrumentId)
                .list(jdbc, Instruments::certificate, "c.expires_on desc, c.issued_on desc, c.id");
    }

    /** Notes what is wrong with a draft, which {@code at} points to. */
    public static Checks check(Checks checks, String at, InstrumentDraft draft) {
        return InstrumentChecks.of(checks, at, draft);
    }

    /** Notes what is wrong with a certificate, which {@code at} points to. */
    public static Checks checkCertificate(
            Checks checks, String at, String number, LocalDate issuedOn, LocalDate expiresOn) {
        return InstrumentChecks.certificate(checks, at, number, issuedOn, expiresOn);
    }

    private static void check(InstrumentDraft draft) {
        InstrumentChecks.of(new Checks(), "", draft).refuse();
    }

    private InstrumentRow row(UUID id) {
        return rows.findById(id).orElseThrow(() -> Refusal.notFound("instrument", id));
    }

    private static Instrument instrument(ResultSet rs, int n) throws SQLException {
        return new Instrument(
                rs.getObject("id", UUID.class),
                rs.getString("name"),
                Words.of(InstrumentKind.class, rs.getString("kind")),
                rs.getString("serial_number"),
                rs.getDouble("luminance_uncertainty"),
                rs.getDouble("luminance_repeatability"),
                rs.getDouble("chromaticity_uncertainty"),
                rs.getDouble("chromaticity_repeatability"),
                rs.getDouble("luminance_floor"),
                rs.getString("number") == null ? null : certificate(rs, n),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }

    private static Certificate certificate(ResultSet rs, int n) throws SQLException {
        return new Certificate(
                rs.getObject("certificate_id", UUID.class),
                rs.getObject("id", UUID.class),
                rs.getString("number"),
                rs.getObject("issued_on", LocalDate.class),
                rs.getObject("expires_on", LocalDate.class),
                rs.getString("recorded_by"));
    }
}
