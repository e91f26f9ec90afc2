package panelbook.db;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PostgresProgramsTest {
    @TempDir
    Path cache;

    @Test
    void processesThatUnpackAtTheSameTimeEndWithOneWholeCopy() throws Exception {
        List<Process> rivals = new ArrayList<>();
        for (int rival = 0; rival < 3; rival++) {
            rivals.add(Jvm.start("unpack", "unused", cache.toString()));
        }
        for (Process rival : rivals) {
            assertThat(Jvm.output(rival).strip()).isEqualTo("18");
            assertThat(rival.waitFor()).isZero();
        }
        assertThat(unpacked()).hasSize(1);
    }

    @Test
    void damagedOrUnfinishedProgramsAreUnpackedAgain() throws Exception {
        Path first = PostgresPrograms.unpackedIn(cache, false).folder();
        Path server = first.resolve("bin/postgres");
        long size = Files.size(server);
        Files.write(server, new byte[0]);
        Files.createDirectories(cache.resolve(first.getFileName() + ".partial/bin"));

        assertThat(PostgresPrograms.unpackedIn(cache, false).folder()).isEqualTo(first);
        assertThat(Files.size(server)).isEqualTo(size);
        assertThat(Files.isExecutable(server)).isTrue();
        assertThat(unpacked()).containsExactly(first);
    }

    /** Names as they stand in the archives; what the JDK calls a machine differs from system to system. */
    @ParameterizedTest
    @CsvSource({
        "Linux,amd64,postgres-linux-x86_64.txz",
        "Linux,aarch64,postgres-linux-arm_64.txz",
        "Mac OS X,x86_64,postgres-darwin-x86_64.txz",
        "Mac OS X,aarch64,postgres-darwin-arm_64.txz"
    })
    void eachKindOfMachineFindsItsArchiveOnTheClassPath(String os, String arch, String archive) {
        assertThat(PostgresPrograms.archiveName(os, arch)).isEqualTo(archive);
        assertThat(getClass().getClassLoader().getResource(archive)).as(archive).isNotNull();
    }

    private List<Path> unpacked() throws IOException {
        try (Stream<Path> entries = Files.list(cache)) {
            return entries.filter(Files::isDirectory).toList();
        }
    }
}
