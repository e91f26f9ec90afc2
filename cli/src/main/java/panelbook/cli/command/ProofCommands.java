package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Proof;
import panelbook.wire.ProofCheck;
import panelbook.wire.ProofCheckDraft;
import panelbook.wire.ProofDraft;
import panelbook.wire.ProofVerdict;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on proofs of rooms. */
final class ProofCommands {

    private static final String ROOM = "ROOM, FACILITY/ROOM or id.";

    private ProofCommands() {}

    @Command(
            footer = {
                "  panelbook proof make \"Suite 1\" --day 2026-03-31",
                "  panelbook proof make \"Suite 1\" --day 2026-03-31 --out suite-1.pdf"
            },
            description = {
                "",
                "A PDF that shows the room's state on that day as the book stood then: readiness and its reasons, displays, targets, how "
                        + "each was left with uncertainty and decision rule, instruments with certificates, matches, findings, open "
                        + "alerts. What came later is not in it. The service keeps it, and panelbook proof check tells whether a file is "
                        + "it."
            })
    static final class Make extends Action {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Option(
                names = "--day",
                required = true,
                paramLabel = "DAY",
                description = "Day in the room's time zone, such as 2026-03-31; today tells how it stands now.")
        String day = "";

        @Option(
                names = "--out",
                paramLabel = "FILE",
                description = "Where to write it (default: FACILITY-ROOM-DAY.pdf here, unless that is there already).")
        @Nullable
        String out;

        @Override
        int work() {
            printer().checkFields(Proof.class);
            var asked = Words.date("--day", day);
            var of = names().room(room);
            var file = out == null ? plain(Paths.of(of)) + "-" + asked + ".pdf" : out;
            if (out == null && Files.exists(at().file(file))) {
                throw Failure.failed(file + " is there already and was left as it is. Name another file by --out.");
            }
            var draft = new ProofDraft(UUID.randomUUID(), asked);
            var proof = service()
                    .post(Proof.class, "/rooms/" + of.id() + "/proofs", draft)
                    .value();
            var bytes = service().getBytes("/proofs/" + proof.id() + "/file", "application/pdf");
            write(file, bytes, proof);
            return changed(
                    Views.proofs(),
                    proof,
                    "Wrote the proof of " + Paths.of(of) + " on " + asked + " into " + file,
                    "panelbook proof check " + Words.quoted(file));
        }

        private void write(String file, byte[] bytes, Proof proof) {
            try {
                if (out == null) {
                    Files.write(at().file(file), bytes, StandardOpenOption.CREATE_NEW);
                } else {
                    Files.write(at().file(file), bytes);
                }
            } catch (IOException e) {
                throw Failure.failed(
                        file + " cannot be written: " + FileReasons.of(e) + " The proof is kept as " + proof.id() + ".",
                        e);
            }
        }

        /** Without what a file name cannot hold on some machine. */
        private static String plain(String path) {
            return path.replaceAll("[^\\p{L}\\p{N}._-]+", "-");
        }
    }

    @Command(footer = "  panelbook proof list \"Suite 1\"")
    static final class ListAll extends Listing<Proof> {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Override
        View<Proof> view() {
            return Views.proofs();
        }

        @Override
        String path() {
            return "/rooms/" + names().room(room).id() + "/proofs";
        }

        @Override
        String none() {
            return "No proof of it was made. Next: panelbook proof make ROOM --day DAY";
        }
    }

    @Command(
            footer = "  panelbook proof check suite-1.pdf",
            description = {
                "",
                "Answers genuine, record-differs, altered or unknown, and why. Genuine is a file that the service handed out, unaltered, "
                        + "of which the book, asked again of that moment, still says the same. Exit code 3 when it is not genuine. The "
                        + "file stays on this machine: only its digests are sent."
            })
    static final class Check extends Action {

        /** As the service writes it into the metadata, uncompressed. */
        private static final Pattern MARK = Pattern.compile("panelbook-proof-digest:([0-9a-f]{64})");

        private static final List<Column<ProofCheck>> COLUMNS = List.of(
                of("VERDICT", ProofCheck::verdict),
                of("ROOM", check -> part(check, proof -> proof.facility() + "/" + proof.room())),
                of("DAY", check -> part(check, Proof::day)),
                of("STATE", check -> part(check, Proof::state)),
                of("ASKED", check -> part(check, Proof::askedAt)),
                of("BY", check -> part(check, Proof::askedBy)),
                of("ID", check -> part(check, Proof::id)),
                of("TEXT", ProofCheck::explanation));

        @Parameters(paramLabel = "FILE", description = "The PDF.")
        String file = "";

        @Override
        int work() {
            printer().checkFields(ProofCheck.class);
            var bytes = read(at().file(file));
            var mark = MARK.matcher(new String(bytes, StandardCharsets.ISO_8859_1));
            var draft = new ProofCheckDraft(digest(bytes), mark.find() ? mark.group(1) : null);
            var check = service().post(ProofCheck.class, "/proof-checks", draft).value();
            if (printer().isJson()) {
                printer().one(ProofCheck.class, check, List.of());
            } else {
                printer().list(ProofCheck.class, List.of(check), COLUMNS);
            }
            return check.verdict() == ProofVerdict.GENUINE ? ExitCode.DONE : ExitCode.BEYOND;
        }

        private static @Nullable Object part(ProofCheck check, Function<Proof, Object> of) {
            return check.proof() == null ? null : of.apply(check.proof());
        }

        private byte[] read(Path path) {
            try {
                return Files.readAllBytes(path);
            } catch (IOException e) {
                throw Failure.failed(file + ": " + FileReasons.of(e), e);
            }
        }

        private static String digest(byte[] bytes) {
            try {
                return HexFormat.of()
                        .formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
            } catch (NoSuchAlgorithmException e) {
                throw new IllegalStateException("Every Java platform has SHA-256", e);
            }
        }
    }
}
