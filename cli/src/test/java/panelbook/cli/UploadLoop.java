package panelbook.cli;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** A client in a loop, to be killed: uploads runs from a number on and writes down each that was acknowledged. */
final class UploadLoop {

    private UploadLoop() {}

    /** Arguments: home folder, first number, number of runs. */
    public static void main(String[] arguments) throws Exception {
        var desk = new Desk(Path.of(arguments[0]));
        var acknowledged = desk.home.resolve("acknowledged");
        var first = Integer.parseInt(arguments[1]);
        for (var number = first; number < first + Integer.parseInt(arguments[2]); number++) {
            if (desk.type("run", "upload", "run" + number + ".csv") != 0) {
                new PrintStream(System.out, true, StandardCharsets.UTF_8).println(desk.err);
                System.exit(1);
            }
            Files.writeString(acknowledged, number + "\n", StandardOpenOption.CREATE, StandardOpenOption.APPEND);
        }
    }
}
