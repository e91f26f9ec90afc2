package panelbook.cli.command;

/** Examples in the help of panelbook itself and of its groups. */
final class GroupExamples {

    private GroupExamples() {}

    static String[] of(String group) {
        return switch (group) {
            case "" ->
                new String[] {
                    "  panelbook log-in http://localhost:8089 --token-file token.txt",
                    "  panelbook facility enter north.yaml",
                    "  panelbook run upload *.csv",
                    "  panelbook alert list",
                    "  panelbook room readiness \"Suite 1\""
                };
            case "facility" -> lines("facility enter north.yaml", "facility export North > north.yaml");
            case "room" ->
                lines("room list --facility North", "room sheet \"Suite 1\" --save", "room readiness \"Suite 1\"");
            case "room hero" -> lines("room hero name \"Suite 1\" \"Suite 1/Main/HDR\"", "room hero list \"Suite 1\"");
            case "display" -> lines("display list --room \"Suite 1\"", "display move Client --to \"Suite 2\"");
            case "display hours" -> lines("display hours add Client 10250", "display hours list Client");
            case "display quirk" ->
                lines(
                        "display quirk list Client",
                        "display quirk add Client \"the menu dims the picture while it is open\"");
            case "display control" ->
                lines("display control list Client", "display control set Client gain.red --least=-20 --most=10");
            case "preset" -> lines("preset list --room \"Suite 1\"", "preset show \"Suite 1/Main/HDR\"");
            case "target" -> lines("target list", "target show \"HDR 1000\"");
            case "tolerance-set" ->
                lines("tolerance-set list", "tolerance-set edit House --limit own-drift-white=0.004");
            case "instrument" -> lines("instrument list", "instrument certificate list \"Meter 1\"");
            case "instrument certificate" -> lines("instrument certificate list \"Meter 1\"");
            case "instrument correction" -> lines("instrument correction list \"Meter 1\"");
            case "run" -> lines("run upload morning/*.csv", "run list --preset \"Suite 1/Main/HDR\"");
            case "proof" -> lines("proof make \"Suite 1\" --day 2026-03-31", "proof check suite-1.pdf");
            case "baseline" -> lines("baseline list \"Suite 1/Main/HDR\"");
            case "match" ->
                lines(
                        "match open --follower \"Suite 1/Client/HDR\" --hero \"Suite 1/Main/HDR\" --operator Mara",
                        "match session",
                        "match list --follower \"Suite 1/Client/HDR\"");
            case "trim" -> lines("trim show \"Suite 1\"", "trim effects Client");
            case "advice" -> lines("advice list");
            case "alert" -> lines("alert list", "alert follow --resume");
            case "channel" ->
                lines("channel add Night --mail night@facility.example", "channel test Night", "channel list");
            case "quiet" ->
                lines("quiet add --room \"Suite 1\" --hours 8 --reason \"painters in the room\"", "quiet list");
            case "finding" -> lines("finding list \"Suite 1/Main/HDR\"");
            case "forecast" -> lines("forecast show \"Suite 1/Main\"");
            case "calibrator" ->
                lines(
                        "calibrator add Mara --home North --skill oled --hours \"mon-fri 09:00-17:00\"",
                        "calibrator list --facility North");
            case "calibrator absence" ->
                lines(
                        "calibrator absence add Mara 2027-07-01 2027-07-14 --reason holiday",
                        "calibrator absence list Mara");
            case "holiday" -> lines("holiday add 2027-01-01 \"New Year\"", "holiday list");
            case "travel" -> lines("travel set North South 40", "travel list");
            case "duration" -> lines("duration list", "duration set recalibration 50 --model \"Model K\"");
            case "visit" -> lines("visit list --room \"Suite 1\"", "visit confirm \"Suite 1\"");
            case "booking" -> lines("booking read \"Suite 1\" suite-1.ics", "booking list \"Suite 1\"");
            case "calendar" -> lines("calendar open --room \"Suite 1\"", "calendar list");
            case "spool" -> lines("spool list", "spool send");
            case "token" -> lines("token add --holder probe-3 --role probe --expires 2027-01-31");
            case "account" -> lines("account add mara --holder \"Mara\" --role manager", "account list");
            case "audit" -> lines("audit list --actor mara");
            default -> throw new IllegalArgumentException("no examples for the group " + group);
        };
    }

    private static String[] lines(String... commands) {
        var lines = new String[commands.length];
        for (var i = 0; i < commands.length; i++) {
            lines[i] = "  panelbook " + commands[i];
        }
        return lines;
    }
}
