package panelbook.cli.command;

import java.io.IOException;
import java.lang.reflect.Field;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.IGetter;
import picocli.CommandLine.Model.ISetter;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * What the annotations of the commands say, as texts beside the program, one a command. Reading annotations makes the Java
 * virtual machine write classes of its own at every start, which takes a third of it. A test writes the texts from the
 * annotations and fails when they have fallen behind.
 */
public final class CommandIndex {

    private static final String NONE = "\u2400";
    private static final String TAB = "\t";

    private CommandIndex() {}

    /** The specification of a command with its options bound to the fields of {@code action}; null when it is not listed. */
    static @Nullable CommandSpec spec(String path, Action action) {
        var lines = lines(path);
        if (lines.isEmpty()) {
            return null;
        }
        var spec = CommandSpec.wrapWithoutInspection(action);
        var description = new ArrayList<String>();
        var footer = new ArrayList<String>();
        for (var line : lines) {
            var cells = line.split(TAB, -1);
            switch (cells[0]) {
                case "description" -> description.add(cells[1]);
                case "footer" -> footer.add(cells[1]);
                case "option" -> spec.addOption(option(cells, action));
                default -> spec.addPositional(parameter(cells, action));
            }
        }
        var usage = spec.usageMessage();
        usage.sortOptions(false);
        usage.synopsisHeading(Action.SYNOPSIS_HEADING);
        usage.optionListHeading(Action.OPTIONS_HEADING);
        usage.parameterListHeading(Action.PARAMETERS_HEADING);
        usage.description(description.toArray(String[]::new));
        usage.footer(footer.toArray(String[]::new));
        return spec;
    }

    private static List<String> lines(String path) {
        var stream = CommandIndex.class.getResourceAsStream("commands/" + fileName(path));
        if (stream == null) {
            return List.of();
        }
        try (stream) {
            return new String(stream.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        } catch (IOException e) {
            return List.of(); // the annotations say the same
        }
    }

    private static String fileName(String path) {
        return path.replace(' ', '.') + ".tsv";
    }

    // cells: kind, field, type, label, arity, default, fallback, description; then names and help, or index
    private static OptionSpec option(String[] cells, Action action) {
        var slot = Slot.of(action, cells[1]);
        return OptionSpec.builder(cells[8].split(" "))
                .usageHelp(Boolean.parseBoolean(cells[9]))
                .fallbackValue(cells[6].equals(NONE) ? "" : cells[6])
                .paramLabel(cells[3])
                .arity(cells[4])
                .description(cells[7])
                .required(cells[2].endsWith("!"))
                .type(type(cells[2]))
                .auxiliaryTypes(itemType(cells[2]))
                .defaultValue(given(cells[5]))
                .initialValue(slot.get())
                .getter(slot)
                .setter(slot)
                .build();
    }

    private static PositionalParamSpec parameter(String[] cells, Action action) {
        var slot = Slot.of(action, cells[1]);
        return PositionalParamSpec.builder()
                .index(cells[8])
                .paramLabel(cells[3])
                .arity(cells[4])
                .description(cells[7])
                .required(cells[2].endsWith("!"))
                .type(type(cells[2]))
                .auxiliaryTypes(itemType(cells[2]))
                .defaultValue(given(cells[5]))
                .initialValue(slot.get())
                .getter(slot)
                .setter(slot)
                .build();
    }

    private static @Nullable String given(String cell) {
        return cell.equals(NONE) ? null : cell;
    }

    private static Class<?> type(String cell) {
        return switch (cell.replace("!", "")) {
            case "String" -> String.class;
            case "boolean" -> boolean.class;
            case "int" -> int.class;
            case "Integer" -> Integer.class;
            case "Long" -> Long.class;
            case "List" -> List.class;
            default -> throw new IllegalStateException("no option has the type " + cell);
        };
    }

    private static Class<?> itemType(String cell) {
        var type = type(cell);
        return type == List.class ? String.class : type;
    }

    /** The field that an option sets. */
    private record Slot(Object owner, Field field) implements IGetter, ISetter {

        /** A field of the action, or {@code mixin.field}. */
        static Slot of(Action action, String path) {
            var dot = path.indexOf('.');
            if (dot < 0) {
                return new Slot(action, field(action.getClass(), path));
            }
            var mixin = new Slot(action, field(action.getClass(), path.substring(0, dot)));
            var owner = Objects.requireNonNull(mixin.get(), path);
            return new Slot(owner, field(owner.getClass(), path.substring(dot + 1)));
        }

        private static Field field(Class<?> type, String name) {
            for (@Nullable Class<?> at = type; at != null; at = at.getSuperclass()) {
                try {
                    var field = at.getDeclaredField(name);
                    field.setAccessible(true);
                    return field;
                } catch (NoSuchFieldException e) {
                    continue; // a superclass may have it
                }
            }
            throw new IllegalStateException("the index of commands is out of date: " + type + " has no " + name);
        }

        @Override
        @SuppressWarnings({"unchecked", "TypeParameterUnusedInFormals"})
        public <T> T get() {
            try {
                return (T) field.get(owner);
            } catch (IllegalAccessException e) {
                throw new IllegalStateException(e);
            }
        }

        @Override
        @SuppressWarnings({"unchecked", "TypeParameterUnusedInFormals"})
        public <T> T set(T value) {
            try {
                var before = (T) field.get(owner);
                field.set(owner, value);
                return before;
            } catch (IllegalAccessException e) {
                throw new IllegalStateException(e);
            }
        }
    }

    /** The texts by the names of their files, made from the annotations of every command; for the test that keeps them. */
    public static Map<String, String> write() {
        var texts = new TreeMap<String, String>();
        for (var entry : Catalogue.entries()) {
            if (!Catalogue.isGroup(entry)) {
                var path = String.join(" ", entry.path());
                var text = new StringBuilder();
                write(Commands.make(path), text);
                texts.put(fileName(path), text.toString());
            }
        }
        return texts;
    }

    private static void write(Action action, StringBuilder text) {
        var spec = new CommandLine(action).getCommandSpec();
        for (var line : spec.usageMessage().description()) {
            text.append("description").append(TAB).append(line).append('\n');
        }
        for (var line : spec.usageMessage().footer()) {
            text.append("footer").append(TAB).append(line).append('\n');
        }
        spec.options()
                .forEach(o -> text.append(row("option", o, action, o.fallbackValue()))
                        .append(TAB)
                        .append(String.join(" ", o.names()))
                        .append(TAB)
                        .append(o.usageHelp())
                        .append('\n'));
        spec.positionalParameters()
                .forEach(p -> text.append(row("parameter", p, action, null))
                        .append(TAB)
                        .append(p.index())
                        .append('\n'));
    }

    private static String row(String kind, ArgSpec spec, Action action, @Nullable String fallback) {
        var field = (Field) Objects.requireNonNull(spec.userObject());
        return String.join(
                TAB,
                kind,
                owner(action.getClass(), field) + field.getName(),
                spec.type().getSimpleName() + (spec.required() ? "!" : ""),
                spec.paramLabel(),
                spec.arity().toString(),
                spec.defaultValue() == null ? NONE : spec.defaultValue(),
                fallback == null || spec.type() == boolean.class ? NONE : fallback,
                String.join(" ", spec.description()).replace("%", "%%"));
    }

    private static String owner(Class<?> action, Field field) {
        if (field.getDeclaringClass().isAssignableFrom(action)) {
            return "";
        }
        for (var holder : action.getDeclaredFields()) {
            if (holder.getType() == field.getDeclaringClass()) {
                return holder.getName() + ".";
            }
        }
        throw new IllegalStateException("nothing in " + action + " holds " + field);
    }
}
