package quadrille.cli.render.page;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** A headless browser that opens a page from a file, as its readers do. */
final class Browser implements AutoCloseable {

  private static final Path BROWSER = Path.of("/usr/bin/chromium");
  private static final Path FONT =
      Path.of("/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

  /** Pictures for people to look at. */
  private static final Path SHOTS = Path.of("target/pages");

  private static final Pattern PAGE = Pattern.compile("/Type\\s*/Page\\b(?!s)");

  private final ChromeDriver driver;
  private final String axe;

  /** A sheet of paper, in millimetres. */
  enum Paper {
    A4(210, 297),
    LETTER(215.9, 279.4);

    final double width;
    final double height;

    Paper(double width, double height) {
      this.width = width;
      this.height = height;
    }
  }

  Browser() throws IOException {
    Logger.getLogger("org.openqa.selenium").setLevel(Level.SEVERE);
    Logger.getLogger("io.opentelemetry").setLevel(Level.SEVERE);
    ChromeOptions options = new ChromeOptions();
    options.setBinary(BROWSER.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--force-device-scale-factor=1",
        "--hide-scrollbars",
        "--window-size=1100,1400");
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(DRIVER.toFile())
            .usingAnyFreePort()
            .withLogFile(new File("target/chromedriver.log"))
            .build();
    driver = new ChromeDriver(service, options);
    driver.manage().timeouts().scriptTimeout(Duration.ofMinutes(5));
    try (InputStream in = Browser.class.getResourceAsStream("/axe.min.js")) {
      axe = new String(java.util.Objects.requireNonNull(in, "axe.min.js").readAllBytes(), UTF_8);
    }
  }

  /** What is missing for these tests, as Debian's package names; empty where nothing is. */
  static String missing() {
    List<String> missing = new ArrayList<>();
    if (!Files.isExecutable(BROWSER)) {
      missing.add("chromium");
    }
    if (!Files.isExecutable(DRIVER)) {
      missing.add("chromium-driver");
    }
    // How many sheets a page takes depends on its letters.
    if (!Files.exists(FONT)) {
      missing.add("fonts-liberation");
    }
    return String.join(" ", missing);
  }

  /** Opens a page from a file of this name. */
  void open(String name, String html) throws IOException {
    Files.createDirectories(SHOTS);
    Path file = SHOTS.resolve(name + ".html");
    Files.writeString(file, html, UTF_8);
    driver.get(file.toAbsolutePath().toUri().toString());
  }

  Object run(String script) {
    return driver.executeScript(script);
  }

  @SuppressWarnings("unchecked")
  List<String> lines(String script) {
    return (List<String>) driver.executeScript(script);
  }

  String title() {
    return driver.getTitle();
  }

  /** Keeps a picture of the whole page. */
  void shoot(String name) throws IOException {
    Map<String, Object> shot =
        driver.executeCdpCommand(
            "Page.captureScreenshot", Map.of("format", "png", "captureBeyondViewport", true));
    Files.write(SHOTS.resolve(name + ".png"), decoded(shot));
  }

  /** What axe-core finds of these impacts, each as one line. */
  List<String> axe(String... impacts) {
    driver.executeScript(axe);
    Object found =
        driver.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run(document, {resultTypes: ['violations']}).then("
                + "r => done(r.violations.flatMap(v => v.nodes.map(n =>"
                + " v.impact + ' ' + v.id + ': ' + n.html.slice(0, 200)))),"
                + "e => done(['error ' + e]));");
    List<String> lines = new ArrayList<>();
    for (Object line : (List<?>) found) {
      String words = line.toString();
      boolean asked = words.startsWith("error ");
      for (String impact : impacts) {
        asked |= words.startsWith(impact + " ");
      }
      if (asked) {
        lines.add(words);
      }
    }
    return lines;
  }

  /** Lays the page out as print does: print styles, as wide as the paper less its margins. */
  void asPrinted(Paper paper, double marginMm) {
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "print"));
    size((int) ((paper.width - 2 * marginMm) * 96 / 25.4), 1400);
  }

  /** Lays the page out for a screen of this width. */
  void asOnScreen(int width) {
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "screen"));
    size(width, 1400);
  }

  private void size(int width, int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
  }

  /** Prints to a PDF, as a person who leaves all settings alone, and counts its sheets. */
  int print(String name, Paper paper) throws IOException {
    driver.executeCdpCommand("Emulation.clearDeviceMetricsOverride", Map.of());
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    Map<String, Object> settings = new LinkedHashMap<>();
    settings.put("paperWidth", paper.width / 25.4);
    settings.put("paperHeight", paper.height / 25.4);
    settings.put("printBackground", false);
    settings.put("preferCSSPageSize", false);
    byte[] pdf = decoded(driver.executeCdpCommand("Page.printToPDF", settings));
    Files.write(SHOTS.resolve(name + ".pdf"), pdf);
    Matcher pages = PAGE.matcher(new String(pdf, ISO_8859_1));
    int count = 0;
    while (pages.find()) {
      count++;
    }
    return count;
  }

  private static byte[] decoded(Map<String, Object> answer) {
    return Base64.getDecoder().decode(answer.getOrDefault("data", "").toString());
  }

  @Override
  public void close() {
    driver.quit();
  }
}
