package panelbook.cli.json;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.PrettyPrinter;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.jr.ob.JSON;

/**
 * JSON text to trees and anything to JSON text. Records are written field by field straight to the stream, so that a run
 * of a million readings needs no second copy in memory.
 */
public final class Json {

    private Json() {}

    /** A map, list, text, number, boolean or null, as {@code in} says; {@code in} is read to the end of one value. */
    public static @Nullable Object parse(InputStream in) throws IOException {
        try {
            return JSON.std.anyFrom(in);
        } catch (JacksonException e) {
            throw new IOException("not JSON: " + e.getOriginalMessage(), e);
        }
    }

    /** As {@link #parse(InputStream)}. */
    public static @Nullable Object parse(String text) throws IOException {
        try {
            return JSON.std.anyFrom(text);
        } catch (JacksonException e) {
            throw new IOException("not JSON: " + e.getOriginalMessage(), e);
        }
    }

    /** Compact text of records, maps, collections and plain values. */
    public static String text(@Nullable Object value) {
        return text(value, ObjectWriteContext.empty());
    }

    /** As {@link #text}, with line breaks and indents. */
    public static String prettyText(@Nullable Object value) {
        return text(value, new Pretty());
    }

    private static String text(@Nullable Object value, ObjectWriteContext context) {
        var bytes = new ByteArrayOutputStream();
        try {
            write(value, bytes, context);
        } catch (IOException e) {
            throw new IllegalStateException(e); // memory does not fail
        }
        return bytes.toString(StandardCharsets.UTF_8);
    }

    /** Writes compact UTF-8 text to {@code out} and leaves it open. */
    public static void write(@Nullable Object value, OutputStream out) throws IOException {
        write(value, out, ObjectWriteContext.empty());
    }

    private static void write(@Nullable Object value, OutputStream out, ObjectWriteContext context) throws IOException {
        try {
            var generator = new JsonFactory().createGenerator(context, new KeptOpen(out));
            value(generator, value);
            generator.close();
        } catch (JacksonException e) {
            if (e.getCause() instanceof IOException io) {
                throw io;
            }
            throw new IOException(e);
        }
    }

    private static void value(JsonGenerator to, @Nullable Object value) {
        if (value == null) {
            to.writeNull();
        } else if (value instanceof Boolean b) {
            to.writeBoolean(b);
        } else if (value instanceof Integer i) {
            to.writeNumber(i);
        } else if (value instanceof Long l) {
            to.writeNumber(l);
        } else if (value instanceof Double d) {
            to.writeNumber(d);
        } else if (value instanceof Number n) {
            to.writeNumber(n.toString());
        } else if (value instanceof Record r) {
            object(to, r);
        } else if (value instanceof Map<?, ?> m) {
            map(to, m);
        } else if (value instanceof Collection<?> c) {
            to.writeStartArray();
            c.forEach(item -> value(to, item));
            to.writeEndArray();
        } else {
            to.writeString(value.toString());
        }
    }

    private static void object(JsonGenerator to, Record value) {
        to.writeStartObject();
        for (var component : Records.components(value.getClass())) {
            to.writeName(component.name());
            value(to, component.of(value));
        }
        to.writeEndObject();
    }

    private static void map(JsonGenerator to, Map<?, ?> map) {
        to.writeStartObject();
        map.forEach((name, item) -> {
            to.writeName(String.valueOf(name));
            value(to, item);
        });
        to.writeEndObject();
    }

    private static final class Pretty extends ObjectWriteContext.Base {
        @Override
        public boolean hasPrettyPrinter() {
            return true;
        }

        @Override
        public PrettyPrinter getPrettyPrinter() {
            return new DefaultPrettyPrinter();
        }
    }

    private static final class KeptOpen extends java.io.FilterOutputStream {
        KeptOpen(OutputStream out) {
            super(out);
        }

        @Override
        public void write(byte[] bytes, int offset, int length) throws IOException {
            out.write(bytes, offset, length);
        }

        @Override
        public void close() throws IOException {
            flush();
        }
    }
}
