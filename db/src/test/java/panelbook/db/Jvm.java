package panelbook.db;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** JVMs of their own, and a look at what runs on a folder. */
final class Jvm {
    /** Only what the stand-in itself says goes to its output. */
    private static final String LOGGING = System.getProperty("logback.configurationFile", "src/test/logback.xml");

    private Jvm() {}

    /** Starts {@link ServiceStandIn} with the class path of this test run; errors go to this run's output. */
    static Process start(String... arguments) throws IOException {
        return start(List.of(), System.getProperty("java.class.path"), arguments);
    }

    /** Starts it behind a prefix, such as one that changes the user. */
    static Process start(List<String> prefix, String classPath, String... arguments) throws IOException {
        List<String> command = new ArrayList<>(prefix);
        command.addAll(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx128m",
                "-XX:TieredStopAtLevel=1",
                "-Dlogback.configurationFile=" + LOGGING,
                "-cp",
                classPath,
                ServiceStandIn.class.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }

    /** The class path's entries, which the test runner may have packed into the manifest of one jar. */
    static List<Path> classPath() {
        String packed = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return Stream.of(packed.split(File.pathSeparator)).map(Path::of).toList();
    }

    static BufferedReader reader(Process process) {
        return process.inputReader(StandardCharsets.UTF_8);
    }

    /** All that it prints until it ends. */
    static String output(Process process) throws IOException {
        return new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }

    /** Processes that work in the folder or name it: servers, guards, services. */
    static List<String> runningOn(Path folder) {
        return ProcessHandle.allProcesses()
                .filter(process -> worksIn(process, folder)
                        || process.info().commandLine().orElse("").contains(folder.toString()))
                .map(process ->
                        process.pid() + " " + process.info().commandLine().orElse("?"))
                .toList();
    }

    private static boolean worksIn(ProcessHandle process, Path folder) {
        try {
            return Path.of("/proc/" + process.pid() + "/cwd").toRealPath().startsWith(folder);
        } catch (IOException goneOrAnothers) {
            return false;
        }
    }
}
