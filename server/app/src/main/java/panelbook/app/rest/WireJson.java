package panelbook.app.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import org.springframework.boot.jackson.autoconfigure.JsonMapperBuilderCustomizer;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import panelbook.wire.Problem;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.MapperFeature;
import tools.jackson.databind.cfg.CoercionAction;
import tools.jackson.databind.cfg.CoercionInputShape;
import tools.jackson.databind.cfg.EnumFeature;
import tools.jackson.databind.module.SimpleModule;
import tools.jackson.databind.type.LogicalType;

/** How the records of the contract are read and written as JSON: strictly, and with the contract's words. */
@Configuration(proxyBeanMethods = false)
class WireJson {

    @Bean
    JsonMapperBuilderCustomizer wireRules() {
        return builder -> builder.enable(
                        DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES,
                        DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES,
                        DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
                .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
                .enable(
                        EnumFeature.READ_ENUMS_USING_TO_STRING,
                        EnumFeature.WRITE_ENUMS_USING_TO_STRING,
                        EnumFeature.FAIL_ON_NUMBERS_FOR_ENUMS)
                .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
                .withCoercionConfig(
                        LogicalType.Textual,
                        text -> text.setCoercion(CoercionInputShape.Integer, CoercionAction.Fail)
                                .setCoercion(CoercionInputShape.Float, CoercionAction.Fail)
                                .setCoercion(CoercionInputShape.Boolean, CoercionAction.Fail))
                .addMixIn(Problem.class, WithoutNulls.class)
                .addModule(new RequiredComponents());
    }

    /** RFC 9457 has no null members. */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    private interface WithoutNulls {}

    private static final class RequiredComponents extends SimpleModule {

        @Override
        public void setupModule(SetupContext context) {
            super.setupModule(context);
            context.insertAnnotationIntrospector(new NullMarkedRecords());
        }
    }
}
