package panelbook.app.instruments;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Certificate;
import panelbook.wire.CertificateDraft;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Retirement;

class InstrumentsTest extends ServiceTest {

    @Test
    void anInstrumentIsReadAsItWasAdded() {
        var draft = new InstrumentDraft(
                UUID.randomUUID(),
                unique("Spectro"),
                InstrumentKind.SPECTRORADIOMETER,
                "S/N 9",
                2,
                0.1,
                0.0015,
                0.0002,
                0.001);

        var added = engineer().post("/instruments", draft).expect(201).as(Instrument.class);

        assertThat(added)
                .isEqualTo(new Instrument(
                        draft.id(),
                        draft.name(),
                        InstrumentKind.SPECTRORADIOMETER,
                        "S/N 9",
                        2,
                        0.1,
                        0.0015,
                        0.0002,
                        0.001,
                        null,
                        null,
                        0));
        assertThat(engineer().post("/instruments", draft).expect(200).as(Instrument.class))
                .isEqualTo(added);
        assertThat(engineer().all("/instruments?name=" + draft.name(), Instrument.class))
                .containsExactly(added);
    }

    @Test
    void figuresThatNoMeterHasAreRefusedAllAtOnce() {
        var draft = new InstrumentDraft(
                UUID.randomUUID(), "x", InstrumentKind.COLORIMETER, null, -1, 100, 1, -0.1, Double.MAX_VALUE);

        assertThat(engineer().post("/instruments", draft).expect(400).problem().errors())
                .extracting("pointer")
                .containsExactly(
                        "/luminanceUncertaintyPercent",
                        "/luminanceRepeatabilityPercent",
                        "/chromaticityUncertainty",
                        "/chromaticityRepeatability",
                        "/luminanceFloor");
    }

    @Test
    void theCertificateThatExpiresLastIsShownAndAllAreKept() {
        var instrument = new Samples(engineer()).instrument();
        var path = "/instruments/" + instrument.id() + "/certificates";
        var older = new CertificateDraft(
                UUID.randomUUID(), "C 0", LocalDate.parse("2025-01-01"), LocalDate.parse("2025-12-31"));

        var added = engineer().post(path, older).expect(201).as(Certificate.class);

        engineer().post(path, older).expect(200);
        assertThat(engineer()
                        .get("/instruments/" + instrument.id())
                        .as(Instrument.class)
                        .certificate()
                        .number())
                .isEqualTo("C 1");
        assertThat(engineer().get(path).asListOf(Certificate.class))
                .hasSize(2)
                .last()
                .isEqualTo(added);
    }

    @Test
    void aCertificateOnceEnteredStaysAsItIs() {
        var instrument = new Samples(engineer()).instrument();
        var path = "/instruments/" + instrument.id() + "/certificates";
        var otherDates = new CertificateDraft(
                UUID.randomUUID(), "C 1", LocalDate.parse("2026-01-01"), LocalDate.parse("2027-12-31"));

        assertThat(engineer().post(path, otherDates).expect(409).problem().detail())
                .contains("certificate of this number already");
        var backwards = new CertificateDraft(
                UUID.randomUUID(), "C 2", LocalDate.parse("2026-02-01"), LocalDate.parse("2026-01-31"));
        assertThat(engineer().post(path, backwards).expect(400).problem().errors())
                .extracting("pointer")
                .containsExactly("/expiresOn");
    }

    @Test
    void aRetiredInstrumentKeepsItsRecordAndTakesNoEdits() {
        var instrument = new Samples(engineer()).instrument();
        var path = "/instruments/" + instrument.id();

        var retired = engineer()
                .post(path + "/retirement", new Retirement("dropped"))
                .expect(200)
                .as(Instrument.class);

        assertThat(retired.retiredAt()).isEqualTo(clock.instant());
        var edit = new InstrumentDraft(
                instrument.id(), instrument.name(), InstrumentKind.COLORIMETER, null, 3, 0.2, 0.003, 0.0003, 0.0002);
        assertThat(engineer().put(path, edit, "\"1\"").expect(409).problem().detail())
                .contains("is retired");
    }
}
