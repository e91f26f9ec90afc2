package panelbook.cli;

import java.nio.file.Path;

/** Follows alerts in a process of its own that a test kills. */
final class FollowLoop {

    private FollowLoop() {}

    /** Home folder and program. */
    public static void main(String[] arguments) {
        var desk = new Desk(Path.of(arguments[0]));
        desk.sleeper = Thread::sleep;
        System.exit(desk.type("alert", "follow", "--exec", arguments[1]));
    }
}
