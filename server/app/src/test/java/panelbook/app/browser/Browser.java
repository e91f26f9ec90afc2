package panelbook.app.browser;

import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.support.ui.WebDriverWait;

/** Headless Chromium, as a person in front of it would use it. */
final class Browser implements AutoCloseable {

    private static final Path SCREENSHOTS = Path.of("target", "screenshots");
    private static final List<String> WCAG = List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa");

    private final ChromeDriver driver;
    private final URI service;
    private final Path profile;

    private Browser(ChromeDriver driver, URI service, Path profile) {
        this.driver = driver;
        this.service = service;
        this.profile = profile;
    }

    /** Whether there is one on this machine, with the program that drives it. */
    static boolean isThere() {
        return program("chromium", "chromium-browser", "google-chrome").isPresent()
                && program("chromedriver").isPresent();
    }

    private static Optional<File> program(String... names) {
        return Stream.of(System.getenv("PATH").split(File.pathSeparator))
                .flatMap(folder -> Stream.of(names).map(name -> new File(folder, name)))
                .filter(File::canExecute)
                .findFirst();
    }

    /** Opens one that looks at {@code service} and nothing else; scripts are what many houses switch off. */
    static Browser open(URI service, boolean scripts) {
        try {
            var profile = Files.createTempDirectory("panelbook-browser");
            var options = new ChromeOptions();
            options.setBinary(
                    program("chromium", "chromium-browser", "google-chrome").orElseThrow());
            options.addArguments(
                    "--headless=new",
                    "--no-sandbox",
                    "--disable-gpu",
                    "--disable-dev-shm-usage",
                    "--disable-quic",
                    "--no-first-run",
                    "--disable-background-networking",
                    "--disable-component-update",
                    "--disable-sync",
                    "--user-data-dir=" + profile);
            if (!scripts) {
                options.setExperimentalOption(
                        "prefs", Map.of("profile.managed_default_content_settings.javascript", 2));
            }
            options.setCapability("goog:loggingPrefs", Map.of("browser", "ALL"));
            var driving = new ChromeDriverService.Builder()
                    .usingDriverExecutable(program("chromedriver").orElseThrow())
                    .usingAnyFreePort()
                    .build();
            var driver = new ChromeDriver(driving, options);
            driver.manage().timeouts().implicitlyWait(Duration.ofSeconds(5)).pageLoadTimeout(Duration.ofSeconds(20));
            return new Browser(driver, service, profile);
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** Types an address. */
    Browser go(String path) {
        driver.get(service.resolve(path).toString());
        return this;
    }

    /** Where it is, without the host. */
    String address() {
        return driver.getCurrentUrl().substring(service.toString().length());
    }

    /** What the page says. */
    String text() {
        return driver.findElement(By.tagName("body")).getText();
    }

    String title() {
        return driver.getTitle();
    }

    /** The first link whose words hold {@code words}, in the content of the page. */
    Browser follow(String words) {
        driver.findElement(By.xpath("//main//a[contains(normalize-space(.), \"" + words + "\")]"))
                .click();
        return this;
    }

    /** What a selector finds first. */
    WebElement first(String selector) {
        return driver.findElement(By.cssSelector(selector));
    }

    /** All that a selector finds. */
    List<WebElement> all(String selector) {
        return driver.findElements(By.cssSelector(selector));
    }

    /** Types into the field with this label; a date as the year, the month and the day. */
    Browser type(String label, String text) {
        var field = field(label);
        if ("date".equals(field.getDomAttribute("type"))) {
            // keys go to the parts of a date field in the order of the browser's language
            script("arguments[0].value = arguments[1]", field, text);
        } else {
            field.clear();
            field.sendKeys(text);
        }
        return this;
    }

    private WebElement field(String label) {
        var words = driver.findElement(By.xpath("//label[contains(normalize-space(.), \"" + label + "\")]"));
        var target = words.getDomAttribute("for");
        return target == null
                ? words.findElement(By.cssSelector("input, select, textarea"))
                : driver.findElement(By.id(target));
    }

    /** Waits for something that the service brings about by itself. */
    Browser until(String what, BooleanSupplier happened) {
        new WebDriverWait(driver, Duration.ofSeconds(30))
                .ignoring(StaleElementReferenceException.class)
                .withMessage(() -> what + "; instead " + address() + " says " + text())
                .until(waiting -> happened.getAsBoolean());
        return this;
    }

    /** Presses the button with these words. */
    Browser press(String words) {
        until("the page is there", () -> "complete".equals(script("return document.readyState")));
        driver.findElement(By.xpath("//button[contains(normalize-space(.), \"" + words + "\")]"))
                .click();
        return this;
    }

    /** The key, to whatever has the focus. */
    Browser key(Keys key) {
        driver.switchTo().activeElement().sendKeys(key);
        return this;
    }

    WebElement focused() {
        return driver.switchTo().activeElement();
    }

    Object script(String script, Object... arguments) {
        return driver.executeScript(script, arguments);
    }

    /** What the browser complained of since it was last asked: refused scripts and styles, broken addresses. */
    List<String> complaints() {
        return driver.manage().logs().get("browser").getAll().stream()
                .map(entry -> entry.getLevel() + " " + entry.getMessage())
                .toList();
    }

    /** The width of the window in CSS pixels. */
    Browser wide(int width) {
        driver.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
        return this;
    }

    /** Whether the page has to be scrolled sideways to be read. */
    boolean scrollsSideways() {
        return Boolean.TRUE.equals(
                script("return document.documentElement.scrollWidth > document.documentElement.clientWidth + 1"));
    }

    /** Keeps a picture of the whole page. */
    void picture(String name) {
        var data = driver.executeCdpCommand(
                        "Page.captureScreenshot", Map.of("format", "png", "captureBeyondViewport", true))
                .get("data");
        try {
            Files.createDirectories(SCREENSHOTS);
            Files.write(SCREENSHOTS.resolve(name + ".png"), Base64.getDecoder().decode(String.valueOf(data)));
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** What keeps people who cannot see or point from using the page, by WCAG 2.2 A and AA, in the words of axe-core. */
    List<String> barriers() {
        return new AxeBuilder()
                .withTags(WCAG).disableIframeTesting().analyze(driver).getViolations().stream()
                        .map(Browser::told)
                        .toList();
    }

    private static String told(Rule rule) {
        return rule.getImpact() + ", " + rule.getId() + ": " + rule.getHelp() + " "
                + rule.getNodes().stream()
                        .limit(3)
                        .map(node -> String.valueOf(node.getHtml()))
                        .toList();
    }

    /** Another person sits down: no cookies. */
    Browser forget() {
        driver.manage().deleteAllCookies();
        return this;
    }

    @Override
    public void close() {
        driver.quit();
        try (var files = Files.walk(profile)) {
            files.sorted((one, other) -> other.compareTo(one))
                    .forEach(file -> file.toFile().delete());
        } catch (IOException leftBehind) {
            throw new UncheckedIOException(leftBehind);
        }
    }
}
