package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.cli.render.page.Browser.Paper;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.BidiText;

/**
 * Opens the pages in a browser, as their readers do. Pictures and PDF files stay in target/pages to
 * be looked at.
 */
final class PagesInBrowserTest {

  /** Left and right margin of the print style, mm. */
  private static final double MARGIN = 12;

  private static final Set<PageKind> ALL = EnumSet.allOf(PageKind.class);

  private static Browser browser;

  @BeforeAll
  static void start() throws IOException {
    if (Browser.missing().isEmpty()) {
      browser = new Browser();
    } else {
      // The build's own words are a count; a reader of its output shall see why.
      System.err.println(
          "SKIPPED: no page is opened in a browser; install Debian's " + Browser.missing());
    }
  }

  /** Before each, so that every test left out is counted, with the reason. */
  @BeforeEach
  void needsBrowser() {
    assumeTrue(browser != null, () -> "no browser: Debian's " + Browser.missing() + " missing");
  }

  @AfterAll
  static void stop() {
    if (browser != null) {
      browser.close();
    }
  }

  /** Nothing that keeps a reader with other eyes or hands out. */
  @ParameterizedTest
  @CsvSource({"typical,en", "unprobed,de", "weight-missing,en", "pocket-gel,de"})
  void axeFindsNothing(String name, String language) throws Exception {
    browser.open(name, Sample.of(name).html(ALL, language));
    browser.asOnScreen(1100);
    browser.shoot(name);
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    browser.asOnScreen(390);
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    browser.asPrinted(Paper.A4, MARGIN);
    assertEquals(List.of(), browser.axe("critical", "serious"));
  }

  /**
   * One sheet on the course, one a visit, one of sources; one for the desk; one for the patient.
   */
  @ParameterizedTest
  @MethodSource("quadrille.cli.render.page.Sample#names")
  void printGivesThePromisedSheets(String name) throws Exception {
    Sample sample = Sample.of(name);
    int visits = sample.course().visits().size();
    for (Paper paper : Paper.values()) {
      for (PageKind kind : PageKind.values()) {
        String file = name + "-" + kind.word() + "-" + paper;
        browser.open(file, sample.html(EnumSet.of(kind), "en"));
        assertEquals(kind == PageKind.CHAIRSIDE ? 2 + visits : 1, browser.print(file, paper), file);
      }
    }
  }

  @Test
  void allPagesTogetherPrintAsTheyDoAlone() throws Exception {
    browser.open("typical-all", Sample.of("typical").html());
    assertEquals(7, browser.print("typical-all", Paper.A4));
  }

  @Test
  void germanPatientPageIsOneSheetToo() throws Exception {
    browser.open("patient-de", Sample.of("typical").html(EnumSet.of(PageKind.PATIENT), "de"));
    for (Paper paper : Paper.values()) {
      assertEquals(1, browser.print("patient-de-" + paper, paper));
    }
  }

  @ParameterizedTest
  @MethodSource("quadrille.cli.render.page.Sample#names")
  void nothingIsCutOff(String name) throws Exception {
    browser.open(name, Sample.of(name).html());
    checkNothingCutOff(name);
  }

  @Test
  void weekIsReadableAndPrints() throws Exception {
    LoadedDiary loaded = DiaryFile.read(Path.of("../demo-data/diary.json"));
    LocalDate monday = LocalDate.of(2026, 3, 2);
    Diary diary = loaded.over(LoadedDiary.days(loaded.diary(), monday, monday.plusDays(6)));
    DiaryWeek week = DiaryWeek.of(diary, monday, monday);
    browser.open("week", DiaryPages.of(diary, week, List.of("A note.")));
    browser.asOnScreen(1100);
    browser.shoot("week");
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    browser.asOnScreen(390);
    browser.shoot("week-narrow");
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    checkNothingCutOff("week");
    // Five days of three clinicians and two chairs, a row each.
    for (Paper paper : Paper.values()) {
      assertEquals(2, browser.print("week-" + paper, paper));
    }
  }

  /** Begun, half done with a block that failed, staged again, finished; in both numberings. */
  @ParameterizedTest
  @CsvSource({"fresh,en", "half,en", "restaged,de", "finished,de", "gel,en", "universal,en"})
  void courseUnderWayIsReadableAndPrints(String name, String language) throws Exception {
    String file = "progress-" + name;
    browser.open(file, ProgressSample.html(ProgressSample.of(name), language));
    browser.asOnScreen(1100);
    browser.shoot(file);
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    browser.asOnScreen(390);
    browser.shoot(file + "-narrow");
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    browser.asPrinted(Paper.A4, MARGIN);
    assertEquals(List.of(), browser.axe("critical", "serious"));
    checkNothingCutOff(file);
    int most = 1 + (name.equals("restaged") ? 3 : 2);
    for (Paper paper : Paper.values()) {
      int sheets = browser.print(file + "-" + paper, paper);
      assertTrue(sheets >= 2 && sheets <= most, file + " on " + paper + ": " + sheets);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void hostileTextOfACourseUnderWayStaysInside(int index) throws Exception {
    String file = "hostile-progress-" + index;
    browser.open(file, ProgressSample.html(HostileText.log(HostileText.ALL.get(index)), "en"));
    browser.asOnScreen(1100);
    browser.shoot(file);
    assertEquals(
        BidiText.isolated("Course so far of " + HostileText.ALL.get(index)),
        browser.run("return document.title"));
    assertEquals(0L, browser.run("return document.querySelectorAll('script, img').length"));
    checkNothingCutOff(file);
  }

  @Test
  void comparisonIsReadableAndPrints() throws Exception {
    Sample sample = Sample.of("weight-missing");
    browser.open(
        "comparison",
        ComparePages.of(sample.chart(), sample.practice(), ComparePagesTest.small(sample)));
    browser.asOnScreen(1100);
    browser.shoot("comparison");
    assertEquals(List.of(), browser.axe("critical", "serious", "moderate", "minor"));
    checkNothingCutOff("comparison");
    for (Paper paper : Paper.values()) {
      assertEquals(2, browser.print("comparison-" + paper, paper));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void hostileTextIsShownAsTextAndStaysInside(int index) throws Exception {
    browser.open("hostile-" + index, HostileText.page(HostileText.ALL.get(index)));
    String text = BidiText.isolated(HostileText.ALL.get(index));
    browser.asOnScreen(1100);
    browser.shoot("hostile-" + index);
    assertEquals(
        BidiText.isolated("Course for " + HostileText.ALL.get(index)),
        browser.run("return document.title"));
    List<String> shown =
        browser.lines(
            "return [...document.querySelectorAll('.case bdi, .contact dd bdi, .tray bdi,"
                + " .cautions bdi')].map(e => e.textContent)");
    assertFalse(shown.isEmpty());
    shown.forEach(one -> assertEquals(text, one));
    assertEquals(0L, browser.run("return document.querySelectorAll('script, img').length"));
    // Each text is an island: its direction cannot turn its neighbours round.
    assertEquals(
        List.of(),
        browser.lines(
            "return [...document.querySelectorAll('bdi')].filter(e =>"
                + " getComputedStyle(e).unicodeBidi !== 'isolate').map(e => e.outerHTML)"));
    checkNothingCutOff("hostile-" + index);
  }

  /** The areas of the map fill both arches, and no place belongs to two of them. */
  @ParameterizedTest
  @ValueSource(
      strings = {"typical", "implants-both-sides", "unprobed", "weight-missing", "pocket-gel"})
  void areasOfTheMapTileBothArches(String name) throws Exception {
    browser.open(name, Sample.of(name).html(EnumSet.of(PageKind.CHAIRSIDE), "en"));
    assertEquals(
        List.of(),
        browser.lines(
            """
            const map = document.querySelector('.mouth-map'), wrong = [];
            const paths = [...map.querySelectorAll('.band path, .plain path')];
            for (const [sign, cy] of [[1, 256], [-1, 292]]) {
              for (let angle = -89.3; angle < 90; angle += 2.6) {
                for (let radius = 105.5; radius < 208; radius += 6.1) {
                  const point = map.createSVGPoint();
                  point.x = 260 + radius * Math.sin(angle * Math.PI / 180);
                  point.y = cy - sign * radius * Math.cos(angle * Math.PI / 180);
                  const hits = paths.filter(p => p.isPointInFill(point));
                  if (hits.length !== 1) {
                    wrong.push(sign + ' ' + angle + ' ' + radius + ': ' + hits.length);
                  }
                }
              }
            }
            return wrong;
            """));
    // A plate is of all the bands of its area, and lies on one of them.
    assertEquals(
        List.of(),
        browser.lines(
            """
            const map = document.querySelector('.mouth-map'), wrong = [];
            const bands = [...map.querySelectorAll('.band')];
            [...map.querySelectorAll('.plate')].forEach(plate => {
              const at = /translate\\(([-.0-9]+) ([-.0-9]+)\\)/.exec(plate.getAttribute('transform'));
              const point = map.createSVGPoint();
              point.x = at[1]; point.y = at[2];
              if (!bands.some(band => band.dataset.area === plate.dataset.area
                  && band.querySelector('path').isPointInFill(point))) wrong.push(plate.textContent);
            });
            return wrong;
            """));
  }

  /** Seen without any colour, each band still has its number, and each insert its letter. */
  @Test
  void numbersAndLettersDoWithoutColour() throws Exception {
    Sample sample = Sample.of("typical");
    browser.open("typical", sample.html(EnumSet.of(PageKind.CHAIRSIDE), "en"));
    assertEquals(
        List.of(),
        browser.lines(
            "return [...document.querySelectorAll('.plate, .disc')].filter(e =>"
                + " !/[0-9]/.test(e.textContent)).map(e => e.outerHTML)"));
    assertEquals(
        List.of(),
        browser.lines(
            "const used = new Set([...document.querySelectorAll('.tray b')]"
                + ".map(e => e.textContent));"
                + "return [...document.querySelectorAll('.letter')].map(e => e.textContent)"
                + ".filter(letter => !used.has(letter))"));
  }

  @Test
  void everyPictureHasWordsAndTheKeyboardReachesThePagesInOrder() throws Exception {
    browser.open("typical", Sample.of("typical").html());
    assertEquals(
        List.of(),
        browser.lines(
            "return [...document.querySelectorAll('svg[role=img]')].filter(s =>"
                + " !(s.getAttribute('aria-label')?.trim().length > 3) &&"
                + " !(s.getAttribute('aria-labelledby') ?? '').split(' ').every(id =>"
                + " (document.getElementById(id)?.textContent ?? '').trim().length > 10))"
                + ".map(s => s.outerHTML.slice(0, 200))"));
    assertEquals(
        List.of("#chairside", "#desk", "#patient"),
        browser.lines(
            "return [...document.querySelectorAll('a')].map(a => a.getAttribute('href'))"));
    // Whatever may be wider than a narrow screen can be scrolled by key, in the page's order.
    assertEquals(
        0L,
        browser.run(
            "return document.querySelectorAll('[tabindex]:not([tabindex=\"0\"].scroll),"
                + " .scroll:not([tabindex])').length"));
    assertEquals(
        0L, browser.run("return performance.getEntriesByType('resource').length"), "fetched");
    assertTrue(browser.title().startsWith("Course for DEMO"));
  }

  private static void checkNothingCutOff(String name) {
    for (Paper paper : Paper.values()) {
      browser.asPrinted(paper, MARGIN);
      assertEquals(List.of(), browser.lines(CUT_OFF), name + " on " + paper);
      checkScroll();
      double height = (paper.height - 22) * 96 / 25.4;
      assertEquals(
          List.of(),
          browser.lines(
              "return [...document.querySelectorAll('svg, tr, li, .signature, .notes')].filter(e =>"
                  + " e.getBoundingClientRect().height > "
                  + height
                  + ").map(e => e.outerHTML.slice(0, 200))"),
          "taller than a sheet");
    }
    for (int width : new int[] {1100, 390}) {
      browser.asOnScreen(width);
      if (width > 1000) {
        checkScroll();
      }
      assertEquals(List.of(), browser.lines(CUT_OFF), name + " on a screen of " + width);
    }
  }

  /** Wide tables may be scrolled, on a narrow screen only, and only sideways within themselves. */
  private static void checkScroll() {
    assertEquals(
        List.of(),
        browser.lines(
            "return [...document.querySelectorAll('.scroll')].filter(e =>"
                + " e.scrollWidth > e.clientWidth + 1).map(e => e.outerHTML.slice(0, 200))"));
  }

  /** Boxes that stand out of the page, and texts that stand out of their picture. */
  private static final String CUT_OFF =
      """
      const wide = document.documentElement.clientWidth, wrong = [];
      if (document.documentElement.scrollWidth > wide) {
        wrong.push('page ' + document.documentElement.scrollWidth + ' > ' + wide);
      }
      for (const e of document.querySelectorAll('body *:not(.definitions):not(.definitions *):not(.scroll *)')) {
        const box = e.getBoundingClientRect();
        if (box.width > 0 && (box.right > wide + 1 || box.left < -1)) {
          wrong.push(box.left + '..' + box.right + ' ' + e.outerHTML.slice(0, 150));
        }
      }
      for (const text of document.querySelectorAll('svg text')) {
        const box = text.getBoundingClientRect();
        const picture = text.ownerSVGElement.getBoundingClientRect();
        if (box.left < picture.left - 1 || box.right > picture.right + 1
            || box.top < picture.top - 1 || box.bottom > picture.bottom + 1) {
          wrong.push('text ' + text.textContent);
        }
      }
      return wrong;
      """;
}
