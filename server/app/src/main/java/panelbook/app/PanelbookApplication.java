package panelbook.app;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The Panelbook service. */
@SpringBootApplication
public class PanelbookApplication {

    public static void main(String[] args) {
        SpringApplication.run(PanelbookApplication.class, args);
    }
}
