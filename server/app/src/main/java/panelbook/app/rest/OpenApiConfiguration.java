package panelbook.app.rest;

import io.swagger.v3.core.converter.ModelConverters;
import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.security.SecurityRequirement;
import io.swagger.v3.oas.models.security.SecurityScheme;
import io.swagger.v3.oas.models.servers.Server;
import java.util.List;
import org.springdoc.core.customizers.GlobalOpenApiCustomizer;
import org.springdoc.core.customizers.GlobalOperationCustomizer;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Lazy;
import panelbook.wire.Problem;

/** The OpenAPI document at {@code /v3/api-docs}: made when it is first asked for, from the controllers and the records. */
@Configuration(proxyBeanMethods = false)
class OpenApiConfiguration {

    private static final String BEARER = "bearer";

    static {
        SpringDocUtils.getConfig().addRequestWrapperToIgnore(Paging.class);
    }

    @Bean
    @Lazy
    OpenAPI panelbookApi() {
        var bearer = new SecurityScheme()
                .type(SecurityScheme.Type.HTTP)
                .scheme(BEARER)
                .description("A token that an engineer made, with the role engineer, calibrator, manager or probe.");
        var components = new Components().addSecuritySchemes(BEARER, bearer);
        ModelConverters.getInstance(true).readAll(Problem.class).forEach(components::addSchemas);
        return new OpenAPI()
                .info(new Info()
                        .title("Panelbook")
                        .version("1")
                        .description("The book on every display in a post-production facility. Enums travel as their"
                                + " words, instants in UTC, luminances in cd/m2; every error is an RFC 9457 problem."))
                .servers(List.of(new Server().url("/")))
                .components(components)
                .addSecurityItem(new SecurityRequirement().addList(BEARER));
    }

    @Bean
    @Lazy
    GlobalOperationCustomizer documentedAnswers() {
        return new DocumentedOperations();
    }

    @Bean
    @Lazy
    GlobalOpenApiCustomizer documentedRecords() {
        return new DocumentedRecords();
    }
}
