package panelbook.app.rest;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ReadListener;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;
import org.springframework.util.unit.DataSize;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Refuses a body that is larger than {@code panelbook.max-body-size}, whether it says its length or not. Too small, and
 * long runs or large facility books do not go in; too large, and a few of them at once use up the memory.
 */
@Component
class BodyLimit extends OncePerRequestFilter {

    private final ProblemWriter problems;
    private final long mostBytes;

    BodyLimit(ProblemWriter problems, @Value("${panelbook.max-body-size:64MB}") DataSize most) {
        this.problems = problems;
        this.mostBytes = most.toBytes();
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        if (request.getContentLengthLong() > mostBytes) {
            problems.write(response, tooLarge());
        } else if (request.getContentLengthLong() < 0) {
            chain.doFilter(new Counted(request), response);
        } else {
            chain.doFilter(request, response);
        }
    }

    private Refusal tooLarge() {
        return Refusal.of(
                Refusal.Kind.TOO_LARGE,
                "A body may have at most " + mostBytes + " bytes: send it in parts. (panelbook.max-body-size)");
    }

    private final class Counted extends HttpServletRequestWrapper {

        private Counted(HttpServletRequest request) {
            super(request);
        }

        @Override
        public ServletInputStream getInputStream() throws IOException {
            return new CountedStream(super.getInputStream());
        }
    }

    private final class CountedStream extends ServletInputStream {

        private final ServletInputStream stream;
        private long bytes;

        private CountedStream(ServletInputStream stream) {
            this.stream = stream;
        }

        @Override
        public int read() throws IOException {
            var value = stream.read();
            count(value < 0 ? 0 : 1);
            return value;
        }

        @Override
        public int read(byte[] into, int offset, int length) throws IOException {
            var read = stream.read(into, offset, length);
            count(Math.max(read, 0));
            return read;
        }

        private void count(int read) {
            bytes += read;
            if (bytes > mostBytes) {
                throw tooLarge();
            }
        }

        @Override
        public boolean isFinished() {
            return stream.isFinished();
        }

        @Override
        public boolean isReady() {
            return stream.isReady();
        }

        @Override
        public void setReadListener(ReadListener listener) {
            stream.setReadListener(listener);
        }
    }
}
