package panelbook.app.matching.story;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import panelbook.colorimetry.trim.Channel;
import panelbook.colorimetry.trim.Control;
import panelbook.colorimetry.trim.ControlRange.Kind;
import panelbook.wire.Trim;

/** Controls by the names that people give them: between the contract's words and those of the library. */
public final class Controls {

    /** The level of a control that has but one. */
    private static final String ALL = "all";

    private Controls() {}

    /** The control of a name and a level; "all" is the level of one that has no levels. */
    public static Control of(String control, String level) {
        return new Control(control, level.equals(ALL) ? "" : level);
    }

    /** The control of a trim. */
    public static Control of(Trim trim) {
        return of(trim.control(), trim.level());
    }

    /** The level as the contract has it. */
    public static String level(Control control) {
        return control.level().isEmpty() ? ALL : control.level();
    }

    /** What a control acts on, as its name tells: gain.red is a gain, black-level the black level. */
    public static Kind kind(Control control) {
        var words = words(control);
        if (words.contains("gain") || words.contains("gains")) {
            return Kind.GAIN;
        }
        if (words.contains("bias")) {
            return Kind.BIAS;
        }
        return words.contains("black") && words.contains("level") ? Kind.BLACK_LEVEL : Kind.OTHER;
    }

    /** The channels that a control acts on: those that its name holds, or all three. */
    public static List<Channel> channels(Control control) {
        var words = words(control);
        var named = new ArrayList<Channel>();
        for (var channel : Channel.values()) {
            if (words.contains(word(channel))) {
                named.add(channel);
            }
        }
        return named.isEmpty() ? List.of(Channel.values()) : named;
    }

    /** The channel in words, e.g. "red". */
    static String word(Channel channel) {
        return channel.name().toLowerCase(Locale.ROOT);
    }

    private static Set<String> words(Control control) {
        return Set.copyOf(Arrays.stream(control.name().toLowerCase(Locale.ROOT).split("[^a-z]+", -1))
                .distinct()
                .toList());
    }
}
