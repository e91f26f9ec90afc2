package panelbook.cli;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** Processes of their own, started from the test's class path. */
final class Forked {

    private Forked() {}

    /** The class path of this test; under the test runner the property of the JVM names only a booter. */
    static List<String> classPath() {
        var path = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return List.of(path.split(File.pathSeparator));
    }

    static Process java(Path log, List<String> options, List<String> classPath, String main, String... arguments) {
        var command = new ArrayList<String>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-XX:-UsePerfData", "-Xshare:auto"));
        command.addAll(options);
        command.addAll(List.of("-cp", String.join(File.pathSeparator, classPath), main));
        Stream.of(arguments).forEach(command::add);
        try {
            return new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
                    .start();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
