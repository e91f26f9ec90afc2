package panelbook.app.rest;

import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import java.util.Collection;
import org.jspecify.annotations.NullMarked;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.Version;
import tools.jackson.databind.cfg.MapperConfig;
import tools.jackson.databind.introspect.Annotated;
import tools.jackson.databind.introspect.AnnotatedParameter;
import tools.jackson.databind.introspect.NopAnnotationIntrospector;

/**
 * A component of a record in a {@code @NullMarked} package that is not {@code @Nullable} must be there and must not be
 * null, and neither must the elements of a collection: the compiler's rule holds for what comes in, too.
 */
final class NullMarkedRecords extends NopAnnotationIntrospector {

    private static final long serialVersionUID = 1;

    @Override
    public Version version() {
        return Version.unknownVersion();
    }

    @Override
    public JsonSetter.Value findSetterInfo(MapperConfig<?> config, Annotated annotated) {
        if (!(annotated instanceof AnnotatedParameter parameter) || !isNullMarkedRecord(parameter)) {
            return JsonSetter.Value.empty();
        }
        var elements = Collection.class.isAssignableFrom(parameter.getRawType()) ? Nulls.FAIL : Nulls.DEFAULT;
        return JsonSetter.Value.construct(isNullable(parameter) ? Nulls.DEFAULT : Nulls.FAIL, elements);
    }

    private static boolean isNullMarkedRecord(AnnotatedParameter parameter) {
        var type = parameter.getDeclaringClass();
        return type.isRecord() && type.getPackage().isAnnotationPresent(NullMarked.class);
    }

    private static boolean isNullable(AnnotatedParameter parameter) {
        var component = parameter.getDeclaringClass().getRecordComponents()[parameter.getIndex()];
        return component.getAnnotatedType().isAnnotationPresent(Nullable.class);
    }
}
