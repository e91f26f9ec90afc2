package panelbook.app.rest;

import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.media.Schema;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springdoc.core.customizers.GlobalOpenApiCustomizer;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;
import panelbook.wire.Page;
import panelbook.wire.Problem;

/** Says of each record of the contract which components must be there and which may be null, as its source does. */
final class DocumentedRecords implements GlobalOpenApiCustomizer {

    @Override
    public void customise(OpenAPI api) {
        api.getComponents().getSchemas().remove(SseEmitter.class.getSimpleName());
        api.getComponents().getSchemas().forEach((name, schema) -> record(name).ifPresent(type -> mark(schema, type)));
    }

    private static Optional<Class<?>> record(String name) {
        try {
            var type = Class.forName(Problem.class.getPackageName() + "." + name);
            return type.isRecord() ? Optional.of(type) : Optional.empty();
        } catch (ClassNotFoundException generic) {
            // a page is named after what it holds
            return name.startsWith("Page") ? Optional.of(Page.class) : Optional.empty();
        }
    }

    private static void mark(Schema<?> schema, Class<?> type) {
        schema.setAdditionalProperties(Boolean.FALSE);
        for (var component : type.getRecordComponents()) {
            if (!component.getAnnotatedType().isAnnotationPresent(Nullable.class)) {
                schema.addRequiredItem(component.getName());
            } else if (type != Problem.class) {
                schema.getProperties().computeIfPresent(component.getName(), (name, property) -> nullable(property));
            }
        }
    }

    private static Schema<?> nullable(Schema<?> property) {
        if (property.getTypes() != null && property.getEnum() == null) {
            property.getTypes().add("null");
            return property;
        }
        Schema<?> orNull = new Schema<>();
        orNull.setAnyOf(List.of(property, new Schema<>().types(Set.of("null"))));
        return orNull;
    }
}
