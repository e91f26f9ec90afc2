package panelbook.cli.terminal;

import java.util.LinkedHashMap;
import java.util.Map;

/** Exit codes of every command. */
public final class ExitCode {

    /** Done. */
    public static final int DONE = 0;

    /** Failed; nothing was changed unless the message says so. */
    public static final int FAILED = 1;

    /** The command was typed wrongly. */
    public static final int USAGE = 2;

    /** Done, and something is beyond tolerance, not ready, due or not genuine. */
    public static final int BEYOND = 3;

    private ExitCode() {}

    /** Codes and what they mean, for the help of every command. */
    public static Map<String, String> list() {
        var codes = new LinkedHashMap<String, String>();
        codes.put("0", "done");
        codes.put("1", "failed: the message says why and what to do");
        codes.put("2", "usage: the command was not understood; nothing was done");
        codes.put("3", "done, and something is beyond tolerance, not ready, due or not genuine");
        return codes;
    }
}
