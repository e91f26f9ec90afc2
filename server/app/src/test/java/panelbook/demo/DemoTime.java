package panelbook.demo;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.HttpServletResponse;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.web.servlet.FilterRegistrationBean;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.Ordered;
import org.springframework.web.filter.OncePerRequestFilter;
import panelbook.app.database.BookClock;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Lets the service of the demo live through the years that the demo is about: it takes every request as if it had come in shortly after
 * what it tells of, and any other as if right after the one before. So the book says of each day what it would have said on that
 * day. No part of the service: it is added to the demo's class path, for the time in which the record is taken.
 */
@Configuration(proxyBeanMethods = false)
public class DemoTime {

    private static final Duration ON_THE_WAY = Duration.ofMinutes(5);
    private static final String[] MOMENTS = {"takenAt", "signedAt", "openedAt", "at", "seenAt"};

    @Bean
    FilterRegistrationBean<OncePerRequestFilter> demoTimeFilter(
            BookClock clock, JsonMapper json, @Value("${panelbook.demo.begins}") Instant begins) {
        var registration = new FilterRegistrationBean<OncePerRequestFilter>(new Filter(clock, json, begins));
        registration.setOrder(Ordered.HIGHEST_PRECEDENCE);
        return registration;
    }

    private static final class Filter extends OncePerRequestFilter {

        private final BookClock clock;
        private final JsonMapper json;
        private final AtomicReference<Instant> told;

        Filter(BookClock clock, JsonMapper json, Instant begins) {
            this.clock = clock;
            this.json = json;
            this.told = new AtomicReference<>(begins);
        }

        @Override
        protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
                throws ServletException, IOException {
            var body = request.getInputStream().readAllBytes();
            var now = then(body);
            try {
                clock.at(now, () -> {
                    try {
                        chain.doFilter(new Again(request, body), response);
                        return now;
                    } catch (IOException | ServletException failed) {
                        throw new Carried(failed);
                    }
                });
            } catch (Carried carried) {
                throw new ServletException(carried.getCause());
            }
        }

        private Instant then(byte[] body) {
            var moment = body.length == 0 ? null : moment(json.readTree(body));
            return told.updateAndGet(before -> moment == null
                    // no two requests at one time: each finds what the one before it left
                    ? before.plus(1, ChronoUnit.MILLIS)
                    : moment.plus(ON_THE_WAY));
        }

        private static Instant moment(JsonNode body) {
            return Stream.of(MOMENTS)
                    .map(body::path)
                    .filter(JsonNode::isString)
                    .map(field -> Instant.parse(field.asString()))
                    .findFirst()
                    .orElse(null);
        }
    }

    /** What the work in between may throw. */
    private static final class Carried extends RuntimeException {
        Carried(Exception cause) {
            super(cause);
        }
    }

    /** The request with its body to be read once more. */
    private static final class Again extends HttpServletRequestWrapper {

        private final byte[] body;

        Again(HttpServletRequest request, byte[] body) {
            super(request);
            this.body = body;
        }

        @Override
        public ServletInputStream getInputStream() {
            var bytes = new ByteArrayInputStream(body);
            return new ServletInputStream() {
                @Override
                public int read() {
                    return bytes.read();
                }

                @Override
                public int read(byte[] into, int from, int length) {
                    return bytes.read(into, from, length);
                }

                @Override
                public boolean isFinished() {
                    return bytes.available() == 0;
                }

                @Override
                public boolean isReady() {
                    return true;
                }

                @Override
                public void setReadListener(jakarta.servlet.ReadListener listener) {
                    throw new UnsupportedOperationException("The demo reads whole bodies");
                }
            };
        }
    }
}
