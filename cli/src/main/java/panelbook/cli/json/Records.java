package panelbook.cli.json;

import java.lang.reflect.Method;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Records from trees and back. Enums travel as their {@code toString()}, instants, dates and UUIDs as text. A missing list
 * is empty, a missing boolean false; anything else missing must be {@code @Nullable} in the record.
 */
public final class Records {

    /** A component of a record. */
    record Component(String name, Type type, Method accessor, RecordComponent component) {

        @Nullable
        Object of(Record value) {
            try {
                return accessor.invoke(value);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(e); // accessors of public records do not fail
            }
        }

        boolean nullable() {
            return component.getAnnotatedType().isAnnotationPresent(Nullable.class);
        }
    }

    /**
     * A value that does not fit.
     *
     * @param pointer JSON pointer (RFC 6901)
     * @param message what is wrong and what would be right
     */
    public record Misfit(String pointer, String message) {}

    /**
     * What was read, and everything that did not fit.
     *
     * @param value null when anything did not fit
     */
    public record Reading<T>(@Nullable T value, List<Misfit> misfits) {}

    private static final Map<Class<?>, List<Component>> COMPONENTS = new ConcurrentHashMap<>();

    private Records() {}

    static List<Component> components(Class<?> type) {
        return COMPONENTS.computeIfAbsent(
                type,
                t -> Arrays.stream(t.getRecordComponents())
                        .map(Records::component)
                        .toList());
    }

    private static Component component(RecordComponent component) {
        component.getAccessor().setAccessible(true); // records of a package are as good as public ones
        return new Component(component.getName(), component.getGenericType(), component.getAccessor(), component);
    }

    /** Names of the fields of a record, in order. */
    public static List<String> fields(Class<? extends Record> type) {
        return components(type).stream().map(Component::name).toList();
    }

    /** A record as a map of its fields, one level deep. */
    public static Map<String, @Nullable Object> tree(Record value) {
        var tree = new LinkedHashMap<String, @Nullable Object>();
        components(value.getClass()).forEach(c -> tree.put(c.name(), c.of(value)));
        return tree;
    }

    /** A record as maps, lists and plain values all the way down; fields that are null are left out. */
    public static Map<String, Object> deepTree(Record value) {
        var tree = new LinkedHashMap<String, Object>();
        for (var component : components(value.getClass())) {
            var field = deep(component.of(value));
            if (field != null) {
                tree.put(component.name(), field);
            }
        }
        return tree;
    }

    private static @Nullable Object deep(@Nullable Object value) {
        if (value instanceof Record r) {
            return deepTree(r);
        }
        if (value instanceof List<?> list) {
            var items = new ArrayList<@Nullable Object>();
            list.forEach(item -> items.add(deep(item)));
            return items;
        }
        return value == null || value instanceof Number || value instanceof Boolean ? value : value.toString();
    }

    /** Reads a record from an answer: fields that it does not know are passed over. */
    public static <T> Reading<T> read(Class<T> type, @Nullable Object tree) {
        return read(type, tree, false);
    }

    /** Reads a record from a person's file: a field that it does not know is a misfit, answered with the right ones. */
    public static <T> Reading<T> readStrictly(Class<T> type, @Nullable Object tree) {
        return read(type, tree, true);
    }

    private static <T> Reading<T> read(Class<T> type, @Nullable Object tree, boolean strict) {
        if (tree == null) {
            return new Reading<>(null, List.of());
        }
        var reader = new Reader(strict, new ArrayList<>());
        var value = reader.value("", type, tree);
        var fits = value != null && reader.misfits.isEmpty();
        return new Reading<>(fits ? type.cast(value) : null, List.copyOf(reader.misfits));
    }

    private record Reader(boolean strict, List<Misfit> misfits) {

        @Nullable
        Object value(String pointer, Type type, @Nullable Object tree) {
            if (tree == null) {
                return null;
            }
            if (type instanceof ParameterizedType p) {
                return p.getRawType() == List.class ? list(pointer, p.getActualTypeArguments()[0], tree) : tree;
            }
            return type instanceof Class<?> c ? value(pointer, c, tree) : tree;
        }

        private @Nullable Object value(String pointer, Class<?> type, Object tree) {
            if (type.isRecord()) {
                return record(pointer, type, tree);
            }
            if (type.isEnum()) {
                return constant(pointer, type, tree);
            }
            try {
                return plain(pointer, type, tree);
            } catch (NumberFormatException e) {
                return misfit(
                        pointer,
                        "\"" + tree + "\" is not "
                                + (type == int.class || type == Integer.class || type == long.class
                                        ? "a whole number"
                                        : "a number"));
            } catch (DateTimeParseException e) {
                return misfit(
                        pointer,
                        "\"" + tree + "\" is not "
                                + (type == LocalDate.class
                                        ? "a date such as 2026-03-31"
                                        : "a time such as 2026-03-31T14:05:00Z"));
            } catch (IllegalArgumentException e) {
                return misfit(pointer, "\"" + tree + "\" is not a UUID");
            }
        }

        private @Nullable Object plain(String pointer, Class<?> type, Object tree) {
            if (type == Object.class) {
                return tree;
            }
            if (tree instanceof Map || tree instanceof List) {
                return misfit(pointer, "holds more than one value where a single one belongs");
            }
            var text = tree.toString();
            if (type == String.class) {
                return text;
            } else if (type == double.class || type == Double.class) {
                return tree instanceof Number n ? (Object) n.doubleValue() : finite(text);
            } else if (type == int.class || type == Integer.class) {
                return Integer.valueOf(text);
            } else if (type == long.class || type == Long.class) {
                return Long.valueOf(text);
            } else if (type == boolean.class || type == Boolean.class) {
                return tree instanceof Boolean ? tree : truth(pointer, text);
            } else if (type == UUID.class) {
                return UUID.fromString(text);
            } else if (type == Instant.class) {
                return Instant.parse(text);
            } else if (type == LocalDate.class) {
                return LocalDate.parse(text);
            }
            throw new IllegalStateException("no rule to read " + type);
        }

        private static Double finite(String text) {
            var value = Double.valueOf(text);
            if (!Double.isFinite(value)) {
                throw new NumberFormatException(text);
            }
            return value;
        }

        private @Nullable Object truth(String pointer, String text) {
            return switch (text) {
                case "true", "yes" -> true;
                case "false", "no" -> false;
                default -> misfit(pointer, "\"" + text + "\" is neither true nor false");
            };
        }

        private @Nullable Object constant(String pointer, Class<?> type, Object tree) {
            var constants = type.getEnumConstants();
            for (var constant : constants) {
                if (constant.toString().equals(tree.toString())) {
                    return constant;
                }
            }
            var words = Arrays.stream(constants).map(Object::toString).collect(Collectors.joining(", "));
            return misfit(pointer, "\"" + tree + "\" is none of: " + words);
        }

        private @Nullable Object list(String pointer, Type item, Object tree) {
            if (!(tree instanceof List<?> items)) {
                return misfit(pointer, "is not a list");
            }
            var values = new ArrayList<Object>(items.size());
            for (var i = 0; i < items.size(); i++) {
                var value = value(pointer + "/" + i, item, items.get(i));
                if (value != null) {
                    values.add(value);
                } else if (items.get(i) == null) {
                    misfit(pointer + "/" + i, "is empty");
                }
            }
            return values;
        }

        private @Nullable Object record(String pointer, Class<?> type, Object tree) {
            if (!(tree instanceof Map<?, ?> map)) {
                return misfit(pointer, "is not a group of named fields");
            }
            var before = misfits.size();
            var components = components(type);
            if (strict) {
                checkNames(pointer, components, map);
            }
            var values = components.stream().map(c -> field(pointer, c, map)).toArray();
            return misfits.size() > before ? null : made(type, components, values);
        }

        private void checkNames(String pointer, List<Component> components, Map<?, ?> map) {
            var known = components.stream().map(Component::name).toList();
            for (var name : map.keySet()) {
                if (!known.contains(String.valueOf(name))) {
                    misfit(pointer + "/" + name, "is not known here; the fields are: " + String.join(", ", known));
                }
            }
        }

        private @Nullable Object field(String pointer, Component component, Map<?, ?> map) {
            var place = pointer + "/" + component.name();
            var tree = map.get(component.name());
            if (tree != null) {
                return value(place, component.type(), tree);
            }
            if (component.type() instanceof ParameterizedType p && p.getRawType() == List.class) {
                return component.nullable() ? null : List.of();
            }
            if (component.type() == boolean.class) {
                return false;
            }
            // what the service says to be null may be null; reading the annotation is slow and only for what is not
            // there
            var said = !strict && map.containsKey(component.name()) && !primitive(component);
            return said || component.nullable() ? null : misfit(place, "is missing");
        }

        private static boolean primitive(Component component) {
            return component.type() instanceof Class<?> type && type.isPrimitive();
        }

        private static Object made(Class<?> type, List<Component> components, Object[] values) {
            var types = components.stream().map(c -> c.component().getType()).toArray(Class<?>[]::new);
            try {
                var constructor = type.getDeclaredConstructor(types);
                constructor.setAccessible(true);
                return constructor.newInstance(values);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("cannot make a " + type.getSimpleName(), e);
            }
        }

        private @Nullable Object misfit(String pointer, String message) {
            misfits.add(new Misfit(pointer, message));
            return null;
        }
    }
}
