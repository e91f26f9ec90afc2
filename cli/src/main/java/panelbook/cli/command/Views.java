package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.terminal.Column;
import panelbook.wire.Account;
import panelbook.wire.AgreedOffset;
import panelbook.wire.Alert;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertNotification;
import panelbook.wire.AuditEntry;
import panelbook.wire.Baseline;
import panelbook.wire.Booking;
import panelbook.wire.BookingSource;
import panelbook.wire.CalendarFeed;
import panelbook.wire.Certificate;
import panelbook.wire.Channel;
import panelbook.wire.Correction;
import panelbook.wire.Delivery;
import panelbook.wire.Display;
import panelbook.wire.Facility;
import panelbook.wire.Finding;
import panelbook.wire.Hero;
import panelbook.wire.Instrument;
import panelbook.wire.Match;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.Preset;
import panelbook.wire.Proof;
import panelbook.wire.QuietPeriod;
import panelbook.wire.Quirk;
import panelbook.wire.Room;
import panelbook.wire.Run;
import panelbook.wire.Stay;
import panelbook.wire.Target;
import panelbook.wire.Token;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSet;
import panelbook.wire.Trim;
import panelbook.wire.Withdrawal;

/** How each kind of thing is shown. Paths come first, since they are what the next command takes. */
final class Views {

    private Views() {}

    static View<Facility> facilities() {
        return View.of(
                Facility.class,
                List.of(
                        of("FACILITY", Facility::name),
                        of("TIME ZONE", Facility::timeZone),
                        of("RETIRED", Facility::retiredAt),
                        of("ID", Facility::id)));
    }

    static View<Room> rooms() {
        return View.of(
                Room.class,
                List.of(
                        of("ROOM", Paths::of),
                        of("TIME ZONE", Room::timeZone),
                        of("RETIRED", Room::retiredAt),
                        of("ID", Room::id)));
    }

    static View<Display> displays() {
        return new View<>(
                Display.class,
                List.of(
                        of("DISPLAY", Paths::of),
                        of("MODEL", Display::model),
                        of("PANEL", Display::panelTechnology),
                        of("HOURS", Display::panelHours),
                        of("RETIRED", Display::retiredAt),
                        of("ID", Display::id)),
                List.of(
                        of("DISPLAY", Paths::of),
                        of("MODEL", Display::model),
                        of("PANEL", Display::panelTechnology),
                        of("SERIAL NUMBER", Display::serialNumber),
                        of("HOURS", Display::panelHours),
                        of("NOTES", Display::notes),
                        of("RETIRED", Display::retiredAt),
                        of("ID", Display::id)));
    }

    static View<Stay> stays() {
        return View.of(
                Stay.class,
                List.of(
                        of("ROOM", Stay::room),
                        of("FROM", Stay::from),
                        of("TO", Stay::to),
                        of("BY", Stay::movedBy),
                        of("REASON", Stay::reason)));
    }

    static View<PanelHours> panelHours() {
        return View.of(
                PanelHours.class,
                List.of(
                        of("AT", PanelHours::at),
                        of("HOURS", PanelHours::hours),
                        of("BY", PanelHours::recordedBy),
                        of("RUN", PanelHours::runId),
                        of("NOTE", PanelHours::note)));
    }

    static View<PanelHoursQuestion> panelHoursQuestions() {
        return View.of(
                PanelHoursQuestion.class,
                List.of(
                        of("DISPLAY", PanelHoursQuestion::display),
                        of("KIND", PanelHoursQuestion::kind),
                        of("HOURS", q -> q.value().hours()),
                        of("AT", q -> q.value().at()),
                        of("ID", PanelHoursQuestion::id),
                        of("ANSWER", q -> q.answer() == null ? null : q.answer().answer()),
                        of("QUESTION", PanelHoursQuestion::text)));
    }

    static View<BookingSource> bookingSources() {
        return View.of(
                BookingSource.class,
                List.of(
                        of("ROOM", BookingSource::room),
                        of("NAME", BookingSource::name),
                        of("COMES", s -> s.fetched() ? "fetched" : "sent"),
                        of("READ", BookingSource::readAt),
                        of("BOOKINGS", BookingSource::bookings),
                        of("ERROR", BookingSource::error)));
    }

    static View<Booking> bookings() {
        return View.of(
                Booking.class,
                List.of(
                        of("FROM", Booking::startsAt),
                        of("UNTIL", Booking::endsAt),
                        of("CALENDAR", Booking::source),
                        of("BOOKING", b -> b.title() == null ? "booked" : b.title())));
    }

    static View<CalendarFeed> calendarFeeds() {
        return View.of(
                CalendarFeed.class,
                List.of(
                        of("OF", f -> f.calibrator() == null ? f.room() : f.calibrator()),
                        of("STATE", f -> f.revokedAt() == null ? "open" : "closed"),
                        of("MADE", CalendarFeed::madeAt),
                        of("BY", CalendarFeed::madeBy),
                        of("ID", CalendarFeed::id)));
    }

    static View<Proof> proofs() {
        return View.of(
                Proof.class,
                List.of(
                        of("ROOM", p -> p.facility() + "/" + p.room()),
                        of("DAY", Proof::day),
                        of("STATE", Proof::state),
                        of("ASKED", Proof::askedAt),
                        of("BY", Proof::askedBy),
                        of("ID", Proof::id),
                        of("CONTENT DIGEST", Proof::contentDigest)));
    }

    static View<Quirk> quirks() {
        return View.of(
                Quirk.class,
                List.of(
                        of("DISPLAY", Quirk::display),
                        of("STATE", q -> q.settlement() == null ? "open" : "settled"),
                        of("SEEN", Quirk::seenAt),
                        of("BY", Quirk::recordedBy),
                        of("ID", Quirk::id),
                        of(
                                "SETTLED",
                                q -> q.settlement() == null
                                        ? null
                                        : q.settlement().word()),
                        of("QUIRK", Quirk::note)));
    }

    static View<Preset> presets() {
        return View.of(
                Preset.class,
                List.of(
                        of("PRESET", Paths::of),
                        of("TARGET", Preset::target),
                        of("HERO", Preset::hero),
                        of("BASELINE", Preset::baselineAt),
                        of("RETIRED", Preset::retiredAt),
                        of("ID", Preset::id)));
    }

    static View<Hero> heroes() {
        return View.of(
                Hero.class,
                List.of(
                        of("TARGET", Hero::target),
                        of("HERO", h -> h.display() + "/" + h.preset()),
                        of("FROM", Hero::from),
                        of("TO", Hero::to),
                        of("BY", Hero::namedBy)));
    }

    static View<Target> targets() {
        return new View<>(
                Target.class,
                List.of(
                        of("TARGET", Target::name),
                        of("EOTF", Target::eotf),
                        of("RANGE", Target::signalRange),
                        of("BITS", Target::bitDepth),
                        of("PEAK cd/m²", Target::peakLuminance),
                        of("BLACK cd/m²", Target::blackLuminance),
                        of("TOLERANCE SET", Target::toleranceSet),
                        of("ID", Target::id)),
                List.of(
                        of("TARGET", Target::name),
                        of("EOTF", Target::eotf),
                        of("GAMMA", Target::gamma),
                        of("RANGE", Target::signalRange),
                        of("BITS", Target::bitDepth),
                        of("PEAK cd/m²", Target::peakLuminance),
                        of("BLACK cd/m²", Target::blackLuminance),
                        of(
                                "RED xy",
                                t -> t.primaries().redX() + " " + t.primaries().redY()),
                        of(
                                "GREEN xy",
                                t -> t.primaries().greenX() + " "
                                        + t.primaries().greenY()),
                        of(
                                "BLUE xy",
                                t -> t.primaries().blueX() + " " + t.primaries().blueY()),
                        of(
                                "WHITE xy",
                                t -> t.primaries().whiteX() + " "
                                        + t.primaries().whiteY()),
                        of("TOLERANCE SET", Target::toleranceSet),
                        of("RETIRED", Target::retiredAt),
                        of("VERSION", Target::version),
                        of("ID", Target::id)));
    }

    static View<ToleranceSet> toleranceSets() {
        return new View<>(
                ToleranceSet.class,
                List.of(
                        of("TOLERANCE SET", ToleranceSet::name),
                        of("LIMITS", s -> s.tolerances().size()),
                        of("WARM-UP min", ToleranceSet::warmUpMinutes),
                        of("ID", ToleranceSet::id),
                        of("DESCRIPTION", ToleranceSet::description)),
                List.of(
                        of("TOLERANCE SET", ToleranceSet::name),
                        of("DESCRIPTION", ToleranceSet::description),
                        of("WARM-UP min", ToleranceSet::warmUpMinutes),
                        of("RECALIBRATION d", ToleranceSet::recalibrationDays),
                        of("RECALIBRATION h", ToleranceSet::recalibrationPanelHours),
                        of("HYSTERESIS", ToleranceSet::hysteresis),
                        of("CONFORMANCE PROBABILITY", ToleranceSet::conformanceProbability),
                        of("RETIRED", ToleranceSet::retiredAt),
                        of("VERSION", ToleranceSet::version),
                        of("ID", ToleranceSet::id)));
    }

    static View<Tolerance> tolerances() {
        return View.of(
                Tolerance.class,
                List.of(
                        of("METRIC", Tolerance::metric),
                        of("LIMIT", t -> (t.metric().lowerLimit() ? "≥ " : "≤ ") + Words.number(t.limit())),
                        of("UNIT", t -> t.metric().unit()),
                        of("FROM", t -> source(t.basis(), t.document(), t.clause())),
                        of("NOTE", Tolerance::note)));
    }

    /** Where a limit comes from; one that is only remembered is never shown as the document's. */
    static String source(panelbook.wire.Basis basis, @Nullable String document, @Nullable String clause) {
        var place = document == null ? "" : document + (clause == null ? "" : ", " + clause);
        return switch (basis) {
            case TEXT -> place;
            case SECONDARY -> place + " (by a summary of it)";
            case MEMORY -> "from memory, not checked" + (place.isEmpty() ? "" : " against " + place);
            case HOUSE_POLICY -> "house policy";
        };
    }

    static View<Instrument> instruments() {
        return new View<>(
                Instrument.class,
                List.of(
                        of("INSTRUMENT", Instrument::name),
                        of("KIND", Instrument::kind),
                        of("CERTIFICATE UNTIL", Views::expiry),
                        of("RETIRED", Instrument::retiredAt),
                        of("ID", Instrument::id)),
                List.of(
                        of("INSTRUMENT", Instrument::name),
                        of("KIND", Instrument::kind),
                        of("SERIAL NUMBER", Instrument::serialNumber),
                        of("LUMINANCE UNCERTAINTY % (k=2)", Instrument::luminanceUncertaintyPercent),
                        of("LUMINANCE REPEATABILITY %", Instrument::luminanceRepeatabilityPercent),
                        of("u′v′ UNCERTAINTY (k=2)", Instrument::chromaticityUncertainty),
                        of("u′v′ REPEATABILITY", Instrument::chromaticityRepeatability),
                        of("LUMINANCE FLOOR cd/m²", Instrument::luminanceFloor),
                        of(
                                "CERTIFICATE",
                                i -> i.certificate() == null
                                        ? null
                                        : i.certificate().number()),
                        of("CERTIFICATE UNTIL", Views::expiry),
                        of("RETIRED", Instrument::retiredAt),
                        of("ID", Instrument::id)));
    }

    private static @Nullable Object expiry(Instrument instrument) {
        var certificate = instrument.certificate();
        return certificate == null ? null : certificate.expiresOn();
    }

    static View<Certificate> certificates() {
        return View.of(
                Certificate.class,
                List.of(
                        of("CERTIFICATE", Certificate::number),
                        of("ISSUED", Certificate::issuedOn),
                        of("UNTIL", Certificate::expiresOn),
                        of("BY", Certificate::recordedBy)));
    }

    static View<Correction> corrections() {
        return View.of(
                Correction.class,
                List.of(
                        of("CORRECTION", Correction::name),
                        of("IN FORCE", Correction::inForce),
                        of("FROM", Correction::validFrom),
                        of("UNTIL", Correction::validUntil),
                        of("REFERENCE", Correction::reference),
                        of("MADE", Correction::recordedAt),
                        of("BY", Correction::recordedBy),
                        of("ID", Correction::id),
                        of(
                                "WITHDRAWN",
                                c -> c.withdrawal() == null
                                        ? null
                                        : c.withdrawal().reason()),
                        of("NOTE", Correction::note)));
    }

    static View<Run> runs() {
        return new View<>(
                Run.class,
                List.of(
                        of("PRESET", Run::preset),
                        of("PURPOSE", Run::purpose),
                        of("TAKEN", Run::takenAt),
                        of("READINGS", Run::readingCount),
                        of("INSTRUMENT", Run::instrument),
                        of("OPERATOR", Run::operator),
                        of("BASELINE", Run::baseline),
                        of("ID", Run::id),
                        of("WITHDRAWN", run -> at(run.withdrawn()))),
                List.of(
                        of("PRESET", Run::preset),
                        of("PURPOSE", Run::purpose),
                        of("TAKEN", Run::takenAt),
                        of("INSTRUMENT", Run::instrument),
                        of("OPERATOR", Run::operator),
                        of("READINGS", Run::readingCount),
                        of("PANEL HOURS", Run::panelHours),
                        of("MINUTES SINCE POWER-ON", Run::minutesSincePowerOn),
                        of("WARMED UP", Run::warmedUp),
                        of("AMBIENT lx", Run::ambientIlluminanceLux),
                        of("BASELINE", Run::baseline),
                        of("FILE", Run::fileName),
                        of("REMARKS", Run::remarks),
                        of("RECEIVED", Run::receivedAt),
                        of("FROM", Run::receivedFrom),
                        of("WITHDRAWN", run -> whole(run.withdrawn())),
                        of("ID", Run::id)));
    }

    static View<Baseline> baselines() {
        return View.of(
                Baseline.class,
                List.of(
                        of("RUN", Baseline::runId),
                        of("FROM", Baseline::from),
                        of("TO", Baseline::to),
                        of("BY", Baseline::declaredBy),
                        of("REASON", Baseline::reason),
                        of("WITHDRAWN", baseline -> whole(baseline.withdrawn()))));
    }

    private static @Nullable Object at(@Nullable Withdrawal withdrawn) {
        return withdrawn == null ? null : withdrawn.at();
    }

    private static @Nullable Object whole(@Nullable Withdrawal withdrawn) {
        return withdrawn == null
                ? null
                : withdrawn.at() + " by " + withdrawn.by() + ": " + withdrawn.reason()
                        + (withdrawn.replacedBy() == null ? "" : "; replaced by " + withdrawn.replacedBy());
    }

    static View<Finding> findings() {
        return View.of(
                Finding.class,
                List.of(
                        of("DECISION", Finding::decision),
                        of("METRIC", Finding::metric),
                        of("VALUE", Finding::value),
                        of("LIMIT", f -> (f.metric().lowerLimit() ? "≥ " : "≤ ") + Words.number(f.limit())),
                        of("UNIT", Finding::unit),
                        of("UNCERTAINTY", Finding::uncertainty),
                        of("PRESET", Finding::preset),
                        of("LIMIT FROM", f -> source(f.basis(), f.document(), f.clause())),
                        of("CORRECTED", f -> String.join("; ", f.corrections())),
                        of("EXPLANATION", Finding::explanation)));
    }

    static View<Match> matches() {
        return new View<>(
                Match.class,
                List.of(
                        of("FOLLOWER", Match::follower),
                        of("HERO", Match::hero),
                        of("OPERATOR", Match::operator),
                        of("SIGNED", Match::signedAt),
                        of("IN FORCE", Match::inForce),
                        of("OFFSET u′v′", offset(AgreedOffset::duv)),
                        of("OFFSET %", offset(AgreedOffset::luminancePercent)),
                        of("ID", Match::id),
                        of("IN QUESTION", Match::inQuestion),
                        of("WITHDRAWN", match -> at(match.withdrawn())),
                        of("MEASURED", Match::measured)),
                List.of(
                        of("FOLLOWER", Match::follower),
                        of("HERO", Match::hero),
                        of("OPERATOR", Match::operator),
                        of("SIGNED", Match::signedAt),
                        of("IN FORCE", Match::inForce),
                        of("IN QUESTION", Match::inQuestion),
                        of("MEASURED", Match::measured),
                        of("WITHDRAWN", match -> whole(match.withdrawn())),
                        of("OFFSET Δu′", offset(AgreedOffset::du)),
                        of("OFFSET Δv′", offset(AgreedOffset::dv)),
                        of("OFFSET Δu′v′", offset(AgreedOffset::duv)),
                        of("± Δu′ AND Δv′", offset(AgreedOffset::chromaticityUncertainty)),
                        of("OFFSET LUMINANCE %", offset(AgreedOffset::luminancePercent)),
                        of("± LUMINANCE %", offset(AgreedOffset::luminanceUncertaintyPercent)),
                        of("TRIMS", m -> trims(m.trims())),
                        of("MATERIAL", Match::material),
                        of("REMARKS", Match::remarks),
                        of("FOLLOWER RUN", Match::followerRunId),
                        of("HERO RUN", Match::heroRunId),
                        of("RECORDED BY", Match::recordedBy),
                        of("ID", Match::id)));
    }

    /** Empty for an unmeasured match. */
    private static Function<Match, @Nullable Object> offset(Function<AgreedOffset, Object> part) {
        return match -> match.agreedOffset() == null ? null : part.apply(match.agreedOffset());
    }

    static String trims(List<Trim> trims) {
        return trims.isEmpty() ? "none" : trims.stream().map(Views::trim).collect(Collectors.joining(", "));
    }

    private static String trim(Trim trim) {
        var level = trim.level().equals("all") ? "" : "@" + trim.level();
        return trim.control() + level + "=" + (trim.clicks() > 0 ? "+" : "") + trim.clicks();
    }

    static View<Alert> alerts() {
        return new View<>(
                Alert.class,
                List.of(
                        of("STATE", Alert::state),
                        of("CAUSE", Alert::cause),
                        of("SUBJECT", Alert::subject),
                        of("OPENED", Alert::openedAt),
                        of("UPDATED", Alert::updatedAt),
                        of("FOLLOWERS", a -> a.followers().size()),
                        of("ID", Alert::id),
                        of("HELD BY", Alert::heldBy),
                        of("HEADLINE", Alert::headline)),
                List.of(
                        of("STATE", Alert::state),
                        of("CAUSE", Alert::cause),
                        of("SUBJECT", Alert::subject),
                        of("HEADLINE", Alert::headline),
                        of("ROOM", Alert::room),
                        of("OPENED", Alert::openedAt),
                        of("UPDATED", Alert::updatedAt),
                        of("ACKNOWLEDGED", Alert::acknowledgedAt),
                        of("CLOSED", Alert::closedAt),
                        of("HELD BY", Alert::heldBy),
                        of("ID", Alert::id)));
    }

    /** As a list of alerts, what is held back set in from what speaks for itself. */
    static List<Column<Alert>> alertsIndented() {
        return alerts().columns().stream()
                .map(column -> column.title().equals("SUBJECT")
                        ? of(column.title(), (Alert a) -> (a.heldBy() == null ? "" : "  ") + a.subject())
                        : column)
                .toList();
    }

    static View<AlertEvent> alertEvents() {
        return View.of(
                AlertEvent.class,
                List.of(
                        of("SEQUENCE", AlertEvent::sequence),
                        of("AT", AlertEvent::at),
                        of("EVENT", AlertEvent::kind),
                        of("CAUSE", AlertEvent::cause),
                        of("SUBJECT", AlertEvent::subject),
                        of("ALERT", AlertEvent::alertId),
                        of("BY", AlertEvent::by),
                        of("HEADLINE", AlertEvent::headline),
                        of("HELD BACK", e -> e.heldBack() ? "held back" : null),
                        of("NOTE", AlertEvent::note)));
    }

    static View<Channel> channels() {
        return new View<>(
                Channel.class,
                List.of(
                        of("CHANNEL", Channel::name),
                        of("KIND", Channel::kind),
                        of("WAITING", Channel::waiting),
                        of("GIVEN UP", Channel::givenUp),
                        of("RETIRED", Channel::retiredAt),
                        of("ID", Channel::id),
                        of("TROUBLE", Channel::lastError)),
                List.of(
                        of("CHANNEL", Channel::name),
                        of("KIND", Channel::kind),
                        of("TO", c -> c.url() == null ? String.join(", ", c.addresses()) : c.url()),
                        of("FACILITY", c -> c.facilityId() == null ? "all" : c.facilityId()),
                        of("CAUSES", c -> c.causes().isEmpty() ? "all" : joined(c.causes())),
                        of(
                                "TOLD",
                                c -> c.escalationsOnly()
                                        ? "only what nobody acknowledged in time"
                                        : "from the opening"),
                        of("WAITING", Channel::waiting),
                        of("TROUBLE", Channel::lastError),
                        of("NEXT TRY", Channel::nextAttemptAt),
                        of("GIVEN UP", Channel::givenUp),
                        of("RETIRED", Channel::retiredAt),
                        of("ID", Channel::id)));
    }

    private static String joined(List<?> words) {
        return words.stream().map(Object::toString).collect(Collectors.joining(", "));
    }

    static View<Delivery> deliveries() {
        return View.of(
                Delivery.class,
                List.of(
                        of("CREATED", Delivery::createdAt),
                        of("KIND", Delivery::kind),
                        of("STATE", Views::state),
                        of("ATTEMPTS", Delivery::attempts),
                        of("NEXT TRY", Delivery::nextAttemptAt),
                        of("ID", Delivery::id),
                        of("HEADING", Delivery::heading),
                        of("TROUBLE", d -> d.deliveredAt() == null ? d.lastError() : null)));
    }

    private static String state(Delivery delivery) {
        if (delivery.deliveredAt() != null) {
            return "delivered";
        }
        return delivery.givenUpAt() != null ? "given up" : "waiting";
    }

    static View<AlertNotification> alertNotifications() {
        return View.of(
                AlertNotification.class,
                List.of(
                        of("SEQUENCE", AlertNotification::sequence),
                        of("EVENT", AlertNotification::kind),
                        of("CHANNEL", AlertNotification::channel),
                        of("STATE", AlertNotification::state),
                        of("DELIVERED", AlertNotification::deliveredAt),
                        of("GIVEN UP", AlertNotification::givenUpAt),
                        of("NEXT TRY", AlertNotification::nextAttemptAt),
                        of("WHY", AlertNotification::why)));
    }

    static View<QuietPeriod> quietPeriods() {
        return View.of(
                QuietPeriod.class,
                List.of(
                        of("PLACE", QuietPeriod::place),
                        of("FROM", QuietPeriod::from),
                        of("UNTIL", QuietPeriod::until),
                        of("ENDED", QuietPeriod::endedAt),
                        of("BY", QuietPeriod::madeBy),
                        of("KEPT", QuietPeriod::kept),
                        of("ID", QuietPeriod::id),
                        of("REASON", QuietPeriod::reason)));
    }

    static View<Token> tokens() {
        return View.of(
                Token.class,
                List.of(
                        of("HOLDER", Token::holder),
                        of("ROLE", Token::role),
                        of("CREATED", Token::createdAt),
                        of("BY", Token::createdBy),
                        of("EXPIRES", Token::expiresAt),
                        of("REVOKED", Token::revokedAt),
                        of("ID", Token::id)));
    }

    static View<Account> accounts() {
        return View.of(
                Account.class,
                List.of(
                        of("NAME", Account::name),
                        of("HOLDER", Account::holder),
                        of("ROLE", Account::role),
                        of("CREATED", Account::createdAt),
                        of("BY", Account::createdBy),
                        of("PASSWORD SET", Account::passwordSetAt),
                        of("RETIRED", Account::retiredAt),
                        of("ID", Account::id)));
    }

    static View<AuditEntry> auditEntries() {
        return View.of(
                AuditEntry.class,
                List.of(
                        of("AT", AuditEntry::at),
                        of("WHO", AuditEntry::actor),
                        of("DID", AuditEntry::action),
                        of("WHAT", AuditEntry::subjectKind),
                        of("ID", AuditEntry::subjectId)));
    }
}
