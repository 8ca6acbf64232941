package quadrille.cli.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.locks.LockSupport;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import quadrille.document.FileStore;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/** The page by keys in a real browser. Pictures stay in target/pages to be looked at. */
final class PageInBrowserTest {

  private static final Path BROWSER = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Path SHOTS = Path.of("target/pages");
  private static final List<Integer> WIDTHS = List.of(390, 1024, 1440);

  private static final Map<Deposit, String> DEPOSITS =
      Map.of(Deposit.NONE, "n", Deposit.LIGHT, "l", Deposit.MODERATE, "o", Deposit.HEAVY, "h");

  private static final Map<Feature, String> FEATURES =
      Map.of(
          Feature.CROWDED, "c",
          Feature.TIGHT_TISSUE, "t",
          Feature.CALCULUS_BRIDGE, "g",
          Feature.HEAVY_STAIN, "k",
          Feature.SENSITIVE, "s",
          Feature.RESTORATION_MARGIN, "r",
          Feature.DEMINERALISED, "d");

  private static ChromeDriver driver;

  private Path root;
  private PageServer server;

  @BeforeAll
  static void start() throws Exception {
    if (!Files.isExecutable(BROWSER) || !Files.isExecutable(DRIVER)) {
      System.err.println("SKIPPED: the page is not opened; install Debian's chromium-driver");
      return;
    }
    Logger.getLogger("org.openqa.selenium").setLevel(Level.SEVERE);
    Logger.getLogger("io.opentelemetry").setLevel(Level.SEVERE);
    Files.createDirectories(SHOTS);
    ChromeOptions options = new ChromeOptions();
    options.setBinary(BROWSER.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--force-device-scale-factor=1",
        "--hide-scrollbars",
        "--window-size=1440,1000");
    driver =
        new ChromeDriver(
            new ChromeDriverService.Builder()
                .usingDriverExecutable(DRIVER.toFile())
                .usingAnyFreePort()
                .withLogFile(new File("target/chromedriver-page.log"))
                .build(),
            options);
    driver.manage().timeouts().scriptTimeout(Duration.ofMinutes(5));
  }

  @AfterAll
  static void stop() {
    if (driver != null) {
      driver.quit();
    }
  }

  @BeforeEach
  void serve() throws Exception {
    assumeTrue(driver != null, "no browser: Debian's chromium-driver missing");
    root = DemoPractice.make();
    PracticeFolder folder = new PracticeFolder(root, FileStore.USUAL, true);
    folder.prepare();
    server = PageServer.open(folder, 0, Clock.systemUTC(), text -> {});
    width(1440);
    driver.get(server.address());
    go("/mouths");
  }

  private static void go(String path) {
    driver.get(driver.getCurrentUrl().replaceFirst("(://[^/]+)/.*", "$1" + path));
  }

  /** Goes on by the Tab key until what is asked for has the focus. */
  private static void tabTo(String what) {
    for (int i = 0; i < 200; i++) {
      driver.switchTo().activeElement().sendKeys(Keys.TAB);
      if (Boolean.TRUE.equals(
          driver.executeScript("return document.activeElement.matches(arguments[0])", what))) {
        return;
      }
    }
    throw new AssertionError("never reached by keys: " + what);
  }

  private static void press(CharSequence... keys) {
    driver.switchTo().activeElement().sendKeys(keys);
  }

  @AfterEach
  void end() throws Exception {
    if (server != null) {
      server.close();
      DemoPractice.remove(root);
    }
  }

  private static void width(int width) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width",
            width,
            "height",
            width < 500 ? 844 : 1000,
            "deviceScaleFactor",
            1,
            "mobile",
            false));
  }

  private static void shoot(String name) throws Exception {
    for (int width : WIDTHS) {
      width(width);
      Map<String, Object> shot =
          driver.executeCdpCommand(
              "Page.captureScreenshot", Map.of("format", "png", "captureBeyondViewport", true));
      Files.write(
          SHOTS.resolve("serve-" + name + "-" + width + ".png"),
          java.util.Base64.getDecoder().decode(String.valueOf(shot.get("data"))));
      Object wide =
          driver.executeScript("return document.documentElement.scrollWidth > innerWidth");
      assertEquals(false, wide, name + " is wider than " + width);
    }
    width(1440);
  }

  /** What axe-core finds, one line each. */
  private static List<String> axe() throws Exception {
    try (InputStream in = PageInBrowserTest.class.getResourceAsStream("/axe.min.js")) {
      // Past the page's policy, which lets no script in: the driver may.
      driver.executeScript(
          new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8));
    }
    Object found =
        driver.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run(document, {resultTypes: ['violations']}).then("
                + "r => done(r.violations.flatMap(v => v.nodes.map(n =>"
                + " v.id + ': ' + n.html.slice(0, 160)))), e => done(['error ' + e]));");
    List<String> lines = new ArrayList<>();
    for (Object line : (List<?>) found) {
      lines.add(line.toString());
    }
    return lines;
  }

  private static void until(String script) {
    long end = System.nanoTime() + Duration.ofSeconds(180).toNanos();
    while (!Boolean.TRUE.equals(driver.executeScript("return Boolean(" + script + ")"))) {
      assertTrue(System.nanoTime() < end, () -> "never: " + script);
      LockSupport.parkNanos(Duration.ofMillis(50).toNanos());
    }
  }

  /** The keys of a chart's teeth, in the order of the path tooth by tooth. */
  static String keys(Chart chart) {
    StringBuilder keys = new StringBuilder();
    chart.teeth().stream()
        .sorted(java.util.Comparator.comparingInt(tooth -> tooth.tooth().universal()))
        .forEach(tooth -> keys.append(keys(tooth)));
    return keys.toString();
  }

  private static String keys(ToothChart tooth) {
    if (tooth.status() == ToothStatus.MISSING) {
      return "x";
    }
    StringBuilder keys = new StringBuilder(DEPOSITS.get(tooth.deposit()));
    if (tooth.status() == ToothStatus.IMPLANT) {
      keys.append('i');
    }
    if (tooth.furcation() > 0) {
      keys.append('f').append(tooth.furcation());
    }
    if (tooth.mobility() > 0) {
      keys.append('m').append(tooth.mobility());
    }
    tooth.features().forEach(feature -> keys.append(FEATURES.get(feature)));
    for (Aspect aspect : Aspect.values()) {
      for (Site site : tooth.sites(aspect)) {
        int depth = Objects.requireNonNullElse(site.depthMm(), -1);
        keys.append(depth < 0 ? "-" : depth < 10 ? "" + depth : "+" + depth % 10);
        keys.append(site.bleeding() ? "b" : "");
        keys.append(site.recessionMm() == 0 ? "" : "/" + site.recessionMm());
      }
    }
    return keys.toString();
  }

  @Test
  void theDemoMouthIsTypedInFewKeysAndReadsBackTheSame() throws Exception {
    Chart typical = ChartReader.read(Path.of("../demo-data/typical.json"));
    driver.findElement(By.cssSelector(".begin button")).click();
    until("document.activeElement.name === 'case'");
    String alerts =
        typical.patient().history().alerts().stream()
            .map(Alert::word)
            .collect(Collectors.joining(" "));
    List<String> patient = List.of("DEMO-typed", "2026-03-02", "54", "78", "90", alerts);
    int fields = 0;
    for (String value : patient) {
      driver.switchTo().activeElement().sendKeys(value);
      driver.switchTo().activeElement().sendKeys(Keys.ENTER);
      fields += value.length() + 1;
    }
    assertTrue(fields <= 60, fields + " keys");
    assertEquals("entry", driver.switchTo().activeElement().getAttribute("id"));
    String keys = keys(typical);
    assertTrue(keys.length() <= 450, keys.length() + " keys");
    driver.executeScript(
        "window.took = []; let since = 0;"
            + "addEventListener('keydown', () => { since = performance.now(); }, true);"
            + "addEventListener('keydown', () => {"
            + " requestAnimationFrame(() => setTimeout(() => took.push(performance.now() - since))); });");
    driver.switchTo().activeElement().sendKeys(keys.substring(0, 200));
    shoot("mouth-half");
    driver.findElement(By.id("entry")).sendKeys(keys.substring(200));
    until("document.querySelector('#kept').textContent === 'kept as a draft'");
    Object slow =
        driver.executeScript("return took.sort((a, b) => a - b)[Math.floor(took.length * 0.95)]");
    System.err.println(
        keys.length()
            + " keys, "
            + fields
            + " for the patient; 95th percentile to the screen: "
            + slow
            + " ms");
    shoot("mouth");
    assertEquals(List.of(), axe());
    driver.switchTo().activeElement().sendKeys(Keys.chord(Keys.CONTROL, Keys.ENTER));
    until("location.pathname.endsWith('/readback')");
    assertEquals(
        ChartWriter.lines(typical.withCaseName("DEMO-typed")),
        Files.readString(root.resolve("charts/DEMO-typed.teeth")));
    shoot("readback");
    assertEquals(List.of(), axe());
  }

  @Test
  void aCleanMouthTakesFewKeys() throws Exception {
    driver.findElement(By.cssSelector(".begin button")).click();
    until("document.activeElement.name === 'case'");
    for (String value : List.of("DEMO-clean", "2026-03-02", "30", "70", "60", "none")) {
      driver.switchTo().activeElement().sendKeys(value);
      driver.switchTo().activeElement().sendKeys(Keys.ENTER);
    }
    StringBuilder keys = new StringBuilder();
    Tooth.values().stream()
        .sorted(Tooth.AROUND)
        .forEach(tooth -> keys.append(tooth.position() == 8 ? "x" : "n323222"));
    assertTrue(keys.length() <= 200, keys.length() + " keys");
    driver.findElement(By.id("entry")).sendKeys(keys);
    until("document.querySelector('#kept').textContent === 'kept as a draft'");
    driver.findElement(By.id("entry")).sendKeys(Keys.chord(Keys.CONTROL, Keys.ENTER));
    until("location.pathname.endsWith('/readback')");
    Chart read = ChartReader.read(root.resolve("charts/DEMO-clean.teeth"));
    assertEquals(28, read.worked().size());
    assertTrue(
        read.worked().stream()
            .flatMap(tooth -> tooth.sites().stream())
            .allMatch(site -> site.depthMm() != null && site.depthMm() <= 3));
  }

  @Test
  void undoJumpAndUnlikelyValues() throws Exception {
    driver.findElement(By.cssSelector(".begin button")).click();
    until("document.activeElement.name === 'case'");
    driver.findElement(By.cssSelector("#t16 .site")).click();
    assertEquals("Tooth 16, facial, distal", driver.findElement(By.id("say")).getText());
    driver.findElement(By.cssSelector("#t18 .site")).click();
    driver.findElement(By.id("entry")).sendKeys("xh32+0323j16l4b/1u");
    assertEquals("Tooth 16, facial, middle", driver.findElement(By.id("say")).getText());
    until("document.querySelector('#kept').textContent === 'kept as a draft'");
    String draft =
        driver.executeScript("return document.querySelector('#t17').innerText").toString();
    assertTrue(draft.contains("heavy") && draft.contains("10"), draft);
    driver.findElement(By.id("entry")).sendKeys("j173");
    until("!document.querySelector('#look').hidden");
    shoot("mouth-unlikely");
    assertEquals(List.of(), axe());
  }

  @Test
  void twoBrowsersOnOneMouth() throws Exception {
    driver.findElement(By.cssSelector(".begin button")).click();
    until("document.activeElement.name === 'case'");
    String first = driver.getWindowHandle();
    String url = driver.getCurrentUrl();
    driver.switchTo().newWindow(org.openqa.selenium.WindowType.TAB);
    driver.get(url);
    driver.findElement(By.id("entry")).sendKeys("h666");
    until("document.querySelector('#kept').textContent === 'kept as a draft'");
    driver.close();
    driver.switchTo().window(first);
    driver.findElement(By.id("entry")).sendKeys("l3");
    until("!document.querySelector('#stale').hidden");
    shoot("mouth-stale");
    driver.findElement(By.id("reload")).click();
    until(
        "document.querySelector('#t18') && document.querySelector('#t18').innerText.includes('heavy')");
  }

  @Test
  void coursesStandSideBySide() throws Exception {
    shoot("mouths");
    assertEquals(List.of(), axe());
    driver
        .findElement(By.xpath("//tr[contains(., 'DEMO-typical')]//a[contains(., 'Course')]"))
        .click();
    long start = System.nanoTime();
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    System.err.println(
        "all numbers of visits after " + (System.nanoTime() - start) / 1_000_000 + " ms");
    until("!document.querySelector('#shown').hidden");
    shoot("course");
    assertEquals(List.of(), axe());
    driver.findElement(By.id("accept")).click();
    until("document.querySelector('#accepted').textContent.startsWith('Accepted')");
    driver.get(driver.getCurrentUrl().replaceAll("/mouth/.*", "/practice"));
    driver.executeScript("document.querySelector('details').open = true");
    shoot("practice");
    assertEquals(List.of(), axe());
  }

  @Test
  void anAreaIsMovedByKeysAndByPointerOnceItsPriceIsShown() throws Exception {
    driver
        .findElement(By.xpath("//tr[contains(., 'DEMO-mild')]//a[contains(., 'Course')]"))
        .click();
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    String area = driver.findElement(By.cssSelector("#choice-2 [data-visit='2'] .chip")).getText();
    tabTo("#choice-2 [data-visit='2'] .chip");
    press(Keys.ENTER);
    press(Keys.ARROW_DOWN);
    until("document.querySelector('.moving [role=status] li')");
    shoot("course-moving");
    assertEquals(List.of(), axe());
    press(Keys.ESCAPE);
    assertEquals(0, driver.findElements(By.cssSelector(".moving")).size());
    assertTrue(driver.switchTo().activeElement().getText().equals(area));
    press(Keys.ENTER);
    press(Keys.ARROW_DOWN);
    until("document.querySelector('.moving [data-go]:not([hidden])')");
    tabTo(".moving [data-go]");
    press(Keys.ENTER);
    String there = "#choice-2 [data-visit='1'] .chip[data-area='" + area + "'][data-wished]";
    until("document.querySelector(\"" + there + "\")");
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    shoot("course-wished");
    assertEquals(List.of(), axe());
    driver.navigate().refresh();
    until("document.querySelector(\"" + there + "\")");
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    // Back by pointer: held over the other visit until its price is there, then let go.
    Actions pointer = new Actions(driver);
    pointer
        .clickAndHold(driver.findElement(By.cssSelector(there)))
        .moveByOffset(0, 12)
        .moveToElement(driver.findElement(By.cssSelector("#choice-2 [data-visit='2'] .strip")))
        .perform();
    until("document.querySelector('.moving [data-go]:not([hidden])')");
    pointer.release().perform();
    until(
        "document.querySelector('[data-wish]').dataset.wish === 'must "
            + area
            + " in visit 2 of 2'");
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    tabTo("[data-wish] button");
    press(Keys.ENTER);
    until("!document.querySelector('[data-wish]')");
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    assertEquals(0, driver.findElements(By.cssSelector("[data-wished]")).size());
  }

  @Test
  void anotherProgramsTableIsTakenOverByKeysAlone() throws Exception {
    tabTo("a[href='/import']");
    press(Keys.ENTER);
    shoot("import");
    assertEquals(List.of(), axe());
    // The driver takes a file field's keys for the name of a file, so it is stepped over.
    driver.executeScript("document.querySelector('textarea').focus()");
    press("Case;Tooth;Aspect;Depth distal;Depth middle;Depth mesial;Deposit;By\n");
    press("K-1;46;facial;3;4;3;heavy;y\nK-1;46;palatal;3;4;5;;y\n");
    tabTo("#import button");
    press(Keys.ENTER);
    until("document.querySelector('.meanings')");
    shoot("import-columns");
    assertEquals(List.of(), axe());
    tabTo("select[name='column-7']");
    press("ignore");
    tabTo("button[name=confirmed]");
    press(Keys.ENTER);
    until("document.querySelector('.kept')");
    shoot("import-taken");
    assertEquals(List.of(), axe());
    tabTo("a[href^='/mouth/']");
    press(Keys.ENTER);
    until("document.querySelector('#teeth')?.textContent.includes('46')");
    shoot("import-draft");
    assertEquals(List.of(), axe());
  }

  /** Two visits of tomorrow: one is held. */
  private static String diary(LocalDate day) {
    String course =
        "{ 'case': 'DEMO-%s', 'asked': '%s', 'reevaluateWeeks': { 'from': 6, 'to': 12 },"
            + " 'visits': [ { 'visit': 1, 'minutes': 60 },"
            + " { 'visit': 2, 'minutes': 50, 'gapDays': { 'min': 7, 'max': 14 } } ] }";
    String booking =
        "{ 'id': 'DEMO-%1$s/1', 'case': 'DEMO-%1$s', 'visit': 1, 'start': '%2$sT%3$s:00:00Z',"
            + " 'end': '%2$sT%4$s:00:00Z', 'clinician': 'hanna', 'chair': '1', 'status': '%5$s' }";
    String hours =
        " 'may': [ 'inject' ], 'hours': [ { 'days': [ 'monday', 'tuesday', 'wednesday', 'thursday',"
            + " 'friday', 'saturday', 'sunday' ], 'from': '08:00', 'to': '18:00' } ] }";
    return ("{ 'schema': 'quadrille/diary/1', 'zone': 'UTC', 'startEveryMinutes': 10,"
            + " 'clinicians': [ { 'id': 'hanna', 'name': 'Hanna Example',"
            + hours
            + ", { 'id': 'ines', 'name': 'Ines Example',"
            + hours
            + " ], 'chairs': [ { 'id': '1', 'name': 'Chair 1' }, { 'id': '2', 'name': 'Chair 2' } ],"
            + " 'stock': { 'reprocessingMinutes': 60, 'sets': [] }, 'courses': [ "
            + String.format(Locale.ROOT, course, "201", day)
            + ", "
            + String.format(Locale.ROOT, course, "202", day)
            + " ], 'bookings': [ "
            + String.format(Locale.ROOT, booking, "201", day, "09", "10", "promised")
            + ", "
            + String.format(Locale.ROOT, booking, "202", day, "11", "12", "held")
            + " ] }")
        .replace('\'', '"');
  }

  @Test
  void theDiaryIsChangedByKeysAlone() throws Exception {
    LocalDate day = LocalDate.now(Clock.systemUTC()).plusDays(1);
    Files.writeString(root.resolve("diary.json"), diary(day));
    go("/diary?week=" + day);
    until("document.querySelectorAll('.week-visit').length === 2");
    shoot("diary");
    assertEquals(List.of(), axe());
    tabTo(".week-visit summary");
    press(Keys.ENTER);
    until("document.querySelector('.week-visit details').open");
    assertEquals(List.of(), axe());
    shoot("diary-change");
    // Onto the other visit: refused, and what was typed stays.
    tabTo("input[name=by]");
    press("Ines");
    tabTo("input[name=time]");
    press("1130AM");
    tabTo("button[value=move]");
    until("document.querySelector('.week-visit .stands p')");
    assertEquals(List.of(), axe());
    shoot("diary-tried");
    press(Keys.ENTER);
    until("document.querySelector('[role=alert]')");
    until("document.querySelector('.week-visit input[name=time]').value === '11:30'");
    assertEquals(List.of(), axe());
    tabTo("input[name=time]");
    press("0200PM");
    tabTo("button[value=move]");
    press(Keys.ENTER);
    until("document.querySelector('.said')");
    assertTrue(Files.readString(root.resolve("diary.json")).contains("T14:00:00"));
    assertEquals(List.of(), axe());
    shoot("diary-moved");
    tabTo("button[value=undo]");
    press(Keys.ENTER);
    until("document.querySelector('.said').innerText.includes('took back')");
    assertFalse(
        Files.readString(root.resolve("diary.json"))
            .split("\"journal\"", 2)[0]
            .contains("T14:00:00"));
  }

  private static String moving() {
    return driver.findElement(By.cssSelector("#where")).getText();
  }

  @Test
  void aVisitIsMovedInTheWeekByKeysAndByPointer() throws Exception {
    LocalDate day = LocalDate.now(Clock.systemUTC()).plusDays(1);
    Files.writeString(root.resolve("diary.json"), diary(day));
    go("/diary?week=" + day);
    // The first visit, by keys: onto the other one, whose chair it would take, and past it.
    tabTo(".week-block");
    for (int i = 0; i < 12; i++) {
      press(Keys.ARROW_RIGHT);
    }
    until("document.querySelector('.moving .stands[data-right=false] p')");
    assertTrue(moving().contains("11:00, Hanna Example"), moving());
    assertEquals(false, driver.findElement(By.cssSelector("#moving button")).isEnabled());
    assertEquals(List.of(), axe());
    shoot("diary-moving-broken");
    for (int i = 0; i < 12; i++) {
      press(Keys.ARROW_RIGHT);
    }
    press(Keys.ARROW_DOWN);
    until("document.querySelector('.moving .stands[data-right=true] p')");
    assertTrue(moving().contains("13:00, Ines Example"), moving());
    assertEquals(List.of(), axe());
    shoot("diary-moving");
    press(Keys.ENTER);
    press("Ines");
    tabTo("#moving button[value=move]");
    press(Keys.ENTER);
    until("document.querySelector('.said')");
    String kept = Files.readString(root.resolve("diary.json"));
    assertTrue(kept.contains("T13:00:00") && kept.contains("\"clinician\": \"ines\""), kept);
    // Left alone by Escape, nothing moves.
    tabTo(".week-block");
    press(Keys.ARROW_LEFT);
    until("!document.querySelector('#moving').hidden");
    press(Keys.ESCAPE);
    until("document.querySelector('#moving').hidden");
    assertEquals(kept, Files.readString(root.resolve("diary.json")));
    // The same visit by pointer, into the row above and three hours earlier.
    WebElement block =
        driver.findElement(
            By.cssSelector("[data-who=ines][data-chair=no] .week-block[data-booking]"));
    WebElement over =
        driver.findElement(
            By.cssSelector("[data-day='" + day + "'][data-who=hanna][data-chair=no]"));
    int hour = over.getRect().getWidth() / 10;
    new Actions(driver)
        .moveToElement(block)
        .clickAndHold()
        .moveByOffset(3 * hour, over.getRect().getY() - block.getRect().getY())
        .release()
        .perform();
    until("document.querySelector('.moving .stands[data-right=true] p')");
    assertTrue(moving().contains("16:00, Hanna Example"), moving());
    driver.findElement(By.cssSelector("#moving button[value=move]")).click();
    until("document.querySelector('.said')?.innerText.includes('16:00')");
    assertTrue(Files.readString(root.resolve("diary.json")).contains("T16:00:00"));
  }

  @Test
  void aCourseIsBookedAndAnAbsenceEnteredByKeysAlone() throws Exception {
    LocalDate day = LocalDate.now(Clock.systemUTC()).plusDays(1);
    Files.writeString(root.resolve("diary.json"), diary(day));
    go("/diary?week=" + day);
    tabTo("a[href*='/offers']");
    press(Keys.ENTER);
    until("document.querySelectorAll('.offers > li').length > 1");
    shoot("offers");
    assertEquals(List.of(), axe());
    // The patient can come on the weekday of what is booked.
    String weekday = "input[name=" + day.getDayOfWeek().name().toLowerCase(Locale.ROOT) + "]";
    tabTo(weekday);
    press(" ");
    tabTo("form.fields button");
    press(Keys.ENTER);
    until("document.querySelector('" + weekday + "').checked");
    tabTo("input[name=by]");
    press("Ines");
    tabTo("button[name=take]");
    press(Keys.ENTER);
    until("document.querySelector('.said')?.innerText.includes('booked')");
    assertTrue(Files.readString(root.resolve("diary.json")).contains("DEMO-201/2"));
    shoot("diary-booked");
    assertEquals(List.of(), axe());
    tabTo("select[name=who]");
    press("H");
    tabTo("form[action='/diary/absence'] input[name=last]");
    String later = day.plusDays(7).toString();
    press(later.substring(5, 7) + later.substring(8) + later.substring(0, 4));
    tabTo("form[action='/diary/absence'] button");
    press(Keys.ENTER);
    until("document.body.innerText.includes('What moves, and why')");
    shoot("absence");
    assertEquals(List.of(), axe());
    tabTo("main form button");
    press(Keys.ENTER);
    until("document.querySelector('.said')?.innerText.includes('is away')");
    tabTo(".waits summary");
    press(Keys.ENTER);
    until("document.querySelector('.waits details').open");
    shoot("diary-end");
    assertEquals(List.of(), axe());
    tabTo(".waits select");
    press("t");
    tabTo(".waits button");
    press(Keys.ENTER);
    until("document.querySelector('.said')?.innerText.includes('ended a course')");
  }

  @Test
  void theDayIsReadByKeysAndByPointer() throws Exception {
    DemoPractice.begin(root, FileStore.USUAL, Clock.systemUTC());
    go("/");
    until("document.querySelectorAll('.comer').length === 2");
    shoot("today");
    assertEquals(List.of(), axe());
    String today = driver.findElement(By.cssSelector(".counts")).getText();
    driver.findElement(By.linkText("Day before")).click();
    until("document.querySelector('h1').textContent !== 'Today'");
    shoot("today-before");
    assertEquals(List.of(), axe());
    tabTo("a[href='/']:not(.mark):not(nav a)");
    press(Keys.ENTER);
    until("document.querySelector('h1').textContent === 'Today'");
    assertEquals(today, driver.findElement(By.cssSelector(".counts")).getText());
    tabTo(".comer .links a[href$='/print']");
    press(Keys.ENTER);
    until("document.body.innerText.includes('Course at a glance')");
  }

  @Test
  void aVisitIsRunAtTheChairByKeysThroughAReload() throws Exception {
    DemoPractice.begin(root, FileStore.USUAL, Clock.systemUTC());
    go("/");
    tabTo(".comer .links a[href^='/chair/']");
    press(Keys.ENTER);
    tabTo("input[name=clinician]");
    press("Ines", Keys.ENTER);
    until("document.querySelector('#chair')");
    until("!document.querySelector('#stops').hidden");
    shoot("chair-stops");
    assertEquals(List.of(), axe());
    int stops = driver.findElements(By.cssSelector("[data-stop]")).size();
    assertTrue(stops > 0);
    for (int i = 0; i < stops; i++) {
      tabTo("[data-stop]:not([hidden]) .answer");
      press("no", Keys.TAB, Keys.ENTER);
    }
    until("!document.querySelector('#work').hidden");
    for (int i = 0; i < 8; i++) {
      tabTo("[data-do=done]");
      press(Keys.ENTER);
    }
    until("document.querySelectorAll('[data-over]').length === 8");
    until("document.querySelector('#told').textContent === 'Kept.'");
    driver.navigate().refresh();
    until("document.querySelectorAll('[data-over]').length === 8");
    tabTo("[data-do=pause]");
    press(Keys.ENTER);
    press(Keys.ENTER);
    driver.findElement(By.cssSelector("[data-do=undo]")).click();
    driver.findElement(By.cssSelector("[data-do=undo]")).click();
    until("document.querySelector('#told').textContent === 'Kept.'");
    shoot("chair");
    assertEquals(List.of(), axe());
    // Read from the stool: on a tablet of 1180 by 820 pixels, 227 mm wide, 15 mm are 78 of them.
    Object height =
        driver.executeScript(
            "return parseFloat(getComputedStyle(document.querySelector('#minutes')).fontSize)");
    assertTrue(((Number) height).doubleValue() * 0.72 >= 78, height + " px");
    // Without a connection what is ticked waits, and what needs the program says so.
    online(false);
    tabTo("[data-do=done]");
    press(Keys.ENTER);
    until("document.querySelector('#told').textContent.startsWith('No connection')");
    driver.findElement(By.cssSelector("#find [name=mm]")).sendKeys("9", Keys.ENTER);
    until("document.querySelector('#found').textContent.includes('9 mm')");
    driver.findElement(By.cssSelector("#rows [data-next]:not([hidden])")).click();
    until("document.querySelector('#told').textContent.includes('has been sent')");
    online(true);
    until("document.querySelector('#told').textContent === 'Kept.'");
    driver.navigate().refresh();
    until("document.querySelectorAll('[data-over]').length === 9");
    until("document.querySelector('#found').textContent.includes('9 mm')");
    assertTrue(
        driver.findElements(By.cssSelector("[data-over] [data-next]")).stream()
            .noneMatch(WebElement::isDisplayed));
    // Another order by keys, which a reload keeps and which can be taken back.
    String order = "[...document.querySelectorAll('#rows li')].map((row) => row.dataset.of).join()";
    Object planned = driver.executeScript("return " + order);
    List<WebElement> next = driver.findElements(By.cssSelector("#rows [data-next]:not([hidden])"));
    int asked = next.size();
    do {
      next.get(--asked).sendKeys(Keys.ENTER);
      until("/^Kept, in the new|^Not in this/.test(document.querySelector('#told').textContent)");
    } while (driver.findElement(By.id("told")).getText().startsWith("Not in this"));
    Object changed = driver.executeScript("return " + order);
    assertNotEquals(planned, changed);
    shoot("chair-order");
    driver.navigate().refresh();
    until("document.querySelectorAll('[data-over]').length === 9");
    assertEquals(changed, driver.executeScript("return " + order));
    driver.findElement(By.cssSelector("[data-do=undo]")).click();
    until(order + " === '" + planned + "'");
    assertEquals(List.of(), axe());
    // A block given again shows its wait, and doubts one more before the day's maximum is passed.
    String work = "document.querySelector('#rows [data-now]').dataset.work === 'true'";
    while (!Boolean.TRUE.equals(driver.executeScript("return " + work))) {
      driver.findElement(By.cssSelector("[data-do=done]")).click();
    }
    assertEquals(List.of(), driver.findElements(By.cssSelector("#now .beyond")));
    int repeats = 0;
    while (!driver.findElement(By.id("numb")).getText().contains("do not give it")) {
      driver.findElement(By.cssSelector("[data-again]")).click();
      assertTrue(++repeats < 20);
      assertTrue(
          driver.findElement(By.cssSelector("#now .beyond")).getText().startsWith("Given again: "));
    }
    assertFalse(driver.findElement(By.id("dose")).getText().contains("beyond the maximum"));
    for (int i = 0; i < repeats; i++) {
      driver.findElement(By.cssSelector("[data-do=undo]")).click();
    }
    until("Object.values(localStorage).every((kept) => kept === '[]')");
    // Another window ticks meanwhile: what this one ticks is not kept, which it says, twice.
    driver.executeScript(
        """
        fetch(location.pathname).then((page) => page.text()).then((text) => {
          const page = new DOMParser().parseFromString(text, "text/html");
          const number = JSON.parse(page.querySelector("#ticks").value).ticks.length + 1;
          const one = { number, at: new Date().toISOString(), do: "note", text: "other" };
          return fetch(location.pathname + "/ticks", { method: "POST", body: JSON.stringify({ ticks: [one] }) });
        }).then((answer) => { window.other = answer.ok; });
        """);
    until("window.other");
    driver.findElement(By.cssSelector("[name=note]")).sendKeys("mine", Keys.ENTER);
    until("document.querySelector('#told').textContent.includes('Not kept yet: note mine.')");
    driver.findElement(By.id("end")).click();
    until("document.querySelector('#told').textContent.includes('Not kept yet: note mine.')");
    assertFalse(driver.getCurrentUrl().endsWith("/end"));
    driver.navigate().refresh();
    until("document.querySelector('#told').textContent.includes('not kept: note mine.')");
    tabTo("a[href$='/end']");
    press(Keys.ENTER);
    until("document.body.innerText.includes('The record would say')");
    assertTrue(driver.findElement(By.tagName("body")).getText().contains("other"));
    shoot("chair-end");
    assertEquals(List.of(), axe());
    tabTo("form button");
    press(Keys.ENTER);
    // How the course goes on, side by side; one way is taken.
    until("location.pathname.endsWith('/on')");
    shoot("chair-on");
    assertEquals(List.of(), axe());
    tabTo("form button");
    press(Keys.ENTER);
    until("location.pathname.endsWith('/progress/print')");
  }

  private static void online(boolean there) {
    driver.executeCdpCommand("Network.enable", Map.of());
    driver.executeCdpCommand(
        "Network.emulateNetworkConditions",
        Map.of("offline", !there, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
  }

  @Test
  void aSettingIsChangedByKeysAlone() throws Exception {
    tabTo("nav a[href='/practice']");
    press(Keys.ENTER);
    tabTo("details:nth-of-type(1) summary");
    press(Keys.ENTER);
    tabTo("a[href*='longestVisitMinutes']");
    press(Keys.ENTER);
    tabTo("input[name=value]");
    press(Keys.chord(Keys.CONTROL, "a"), "60");
    tabTo("input[name=by]");
    press("Ines");
    tabTo("select[name=mouth]");
    press("DEMO-mild");
    press(Keys.TAB, Keys.TAB, Keys.ENTER);
    until("document.querySelector('#tried')");
    shoot("setting");
    assertEquals(List.of(), axe());
    tabTo(".keep-it button");
    press(Keys.ENTER);
    until("document.querySelector('.kept')");
    driver.executeScript("document.querySelector('details').open = true");
    shoot("practice-kept");
    assertEquals(List.of(), axe());
    assertTrue(Files.readString(root.resolve("practice.json")).contains("\"by\": \"Ines\""));
  }

  @Test
  void aCourseIsChosenAndAcceptedByKeysAlone() throws Exception {
    Object id =
        driver.executeScript(
            "return [...document.querySelectorAll('tr')].find(row =>"
                + " row.innerText.includes('DEMO-mild')).querySelector('a[href$=course]')"
                + ".getAttribute('href')");
    tabTo("a[href='" + id + "']");
    press(Keys.ENTER);
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    tabTo("[data-choose='2']");
    press(Keys.ENTER);
    until("document.querySelector('#accept').textContent.includes('2 visits')");
    tabTo("#accept");
    press(Keys.ENTER);
    until("!document.querySelector('#logged').hidden");
    shoot("course-accepted");
    assertEquals(List.of(), axe());
    go(id + "?longest=30");
    until("document.querySelectorAll('[aria-busy=true]').length === 0");
    tabTo("[data-help]");
    press(Keys.ENTER);
    until("document.activeElement.matches('ul.obstacles')");
    shoot("course-help");
    assertEquals(List.of(), axe());
  }

  @Test
  void theTutorialsWayLeadsThroughThePage() throws Exception {
    String tutorial = Files.readString(Path.of("../docs/tutorial.md"));
    String section = tutorial.split("## The same by the page")[1].split("\n\\[The page")[0];
    Matcher bold = Pattern.compile("\\*\\*(.+?)\\*\\*").matcher(section);
    int pressed = 0;
    go("/");
    while (bold.find()) {
      String label = bold.group(1).replaceAll("\\s+", " ");
      String found =
          "[...document.querySelectorAll('a, button, summary')].find(one =>"
              + " one.textContent.replace(/\\s+/g, ' ').trim() === '"
              + label
              + "')";
      until(found);
      driver.executeScript(found + ".click()");
      pressed++;
      if (label.startsWith("Accept")) {
        until("!document.querySelector('#logged').hidden");
      }
      if (label.equals("Today")) {
        until("document.body.innerText.includes('To be booked')");
      }
    }
    assertEquals(6, pressed);
    until("document.querySelector('h1').textContent === 'Practice'");
    assertTrue(Files.exists(root.resolve("courses/DEMO-typical.ndjson")));
  }
}
