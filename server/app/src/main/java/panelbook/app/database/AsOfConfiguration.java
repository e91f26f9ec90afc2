package panelbook.app.database;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import org.aopalliance.intercept.MethodInterceptor;
import org.aopalliance.intercept.MethodInvocation;
import org.jspecify.annotations.Nullable;
import org.springframework.aop.Advisor;
import org.springframework.aop.support.DefaultPointcutAdvisor;
import org.springframework.aop.support.annotation.AnnotationMatchingPointcut;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.config.BeanDefinition;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Role;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Refusal;

/** Asks what is marked with {@link AnswersAsOf} of the book as it stood at the moment that the request names. */
@Configuration(proxyBeanMethods = false)
class AsOfConfiguration {

    @Bean
    @Role(BeanDefinition.ROLE_INFRASTRUCTURE)
    static Advisor asOfAdvisor(ObjectProvider<AsOf> asOf) {
        return new DefaultPointcutAdvisor(
                AnnotationMatchingPointcut.forMethodAnnotation(AnswersAsOf.class),
                (MethodInterceptor) call -> answer(call, asOf));
    }

    private static @Nullable Object answer(MethodInvocation call, ObjectProvider<AsOf> asOf) throws Throwable {
        var moment = moment();
        if (moment == null) {
            return call.proceed();
        }
        return asOf.getObject().at(moment, () -> {
            try {
                return call.proceed();
            } catch (RuntimeException | Error refused) {
                throw refused;
            } catch (Throwable checked) {
                throw new IllegalStateException(checked);
            }
        });
    }

    private static @Nullable Instant moment() {
        if (!(RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes attributes)) {
            return null;
        }
        var text = attributes.getRequest().getParameter(AnswersAsOf.PARAMETER);
        return text == null || text.isBlank() ? null : parsed(text.strip());
    }

    private static Instant parsed(String text) {
        try {
            return OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException notOne) {
            throw Refusal.invalid(
                    AnswersAsOf.PARAMETER,
                    "Write an instant with its offset, e.g. 2026-11-24T18:00:00Z, not \"" + text + "\".");
        }
    }
}
