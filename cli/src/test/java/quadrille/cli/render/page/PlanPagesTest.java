package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.document.BidiText;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;

final class PlanPagesTest {

  @ParameterizedTest
  @MethodSource("quadrille.cli.render.page.Sample#names")
  void keptPlansStillPassTheAudit(String name) throws Exception {
    Sample sample = Sample.of(name);
    assertEquals(
        List.of(),
        Audit.audit(sample.course(), sample.chart(), sample.practice()),
        "plan anew with -Dgolden.write=true");
  }

  @Test
  void sameCourseGivesTheSameBytesWhateverTheMachinesLocale() throws Exception {
    Sample sample = Sample.of("typical");
    String html = sample.html();
    Locale before = Locale.getDefault();
    try {
      for (String tag : List.of("de-DE", "tr-TR", "ar-EG-u-nu-arab")) {
        Locale.setDefault(Locale.forLanguageTag(tag));
        assertEquals(html, sample.html(), tag);
      }
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void nothingIsFetchedAndNothingRuns() throws Exception {
    Dom page = Dom.of(Sample.of("typical").html());
    assertEquals(
        List.of(), page.all("//script | //link | //img | //iframe | //object | //*[@src]"));
    assertEquals(List.of(), page.all("//@*[starts-with(name(), 'on')]"));
    for (Dom link : page.all("//*[@href]")) {
      assertTrue(link.attribute("href").startsWith("#"), link.attribute("href"));
    }
    assertEquals(
        "default-src 'none'; style-src 'unsafe-inline'",
        page.one("//meta[@http-equiv='Content-Security-Policy']").attribute("content"));
    String style = page.one("//style").text();
    assertFalse(style.contains("url("), style);
    assertFalse(style.contains("@import"), style);
  }

  @ParameterizedTest
  @EnumSource(PageKind.class)
  void pagesCanBeAskedForOneByOne(PageKind kind) throws Exception {
    Dom page = Dom.of(Sample.of("typical").html(EnumSet.of(kind), "en"));
    assertEquals(List.of(), page.all("//nav"));
    assertEquals(kind.word(), page.one("//main/section").attribute("id"));
  }

  @Test
  void noPageIsRefused() throws Exception {
    Sample sample = Sample.of("typical");
    assertThrows(IllegalArgumentException.class, () -> sample.html(Set.of(), "en"));
  }

  @Test
  void everySheetSaysThatItIsAProposal() throws Exception {
    Dom page = Dom.of(Sample.of("typical").html());
    List<Dom> sheets = page.all("//article");
    assertEquals(7, sheets.size());
    for (Dom sheet : sheets) {
      assertTrue(sheet.one(Dom.ofClass(".//p", "proposal")).text().contains("proposal"));
    }
  }

  @Test
  void patientReadsTheLanguageAskedForAndSaysSo() throws Exception {
    Sample sample = Sample.of("typical");
    Dom all = Dom.of(sample.html(EnumSet.allOf(PageKind.class), "de"));
    assertEquals("en", all.one("/html").attribute("lang"));
    assertEquals("de", all.one("//section[@id='patient']").attribute("lang"));
    assertEquals("de", all.one(Dom.ofClass("//ul", "call")).attribute("lang"));
    assertTrue(all.one("//section[@id='patient']").text().contains("Ihre linke Seite"));
    assertFalse(all.one("//section[@id='patient']").text().contains("minutes"));
    Dom alone = Dom.of(sample.html(EnumSet.of(PageKind.PATIENT), "de"));
    assertEquals("de", alone.one("/html").attribute("lang"));
    assertEquals("Ihre Termine zur Zahnfleischbehandlung", alone.one("//title").text());
  }

  /** Neither alerts nor findings belong into a hand that may lose the page. */
  @Test
  void patientPageSaysNothingOfChartAndAlerts() throws Exception {
    Sample sample = Sample.of("typical");
    assertFalse(sample.chart().patient().history().alerts().isEmpty());
    String text = Dom.of(sample.html(EnumSet.of(PageKind.PATIENT), "en")).one("//main").text();
    assertFalse(text.toLowerCase(Locale.ROOT).contains("diabetes"), text);
    assertFalse(text.contains(sample.chart().caseName()), text);
  }

  @Test
  void defaultPracticeHasNoNameForThePatient() throws Exception {
    Sample sample = Sample.of("typical");
    String html =
        PlanPages.of(
            sample.chart(),
            PracticeReader.defaults(),
            sample.course(),
            EnumSet.of(PageKind.PATIENT),
            Language.english());
    assertFalse(Dom.of(html).one("//main").text().contains("default practice"));
    assertFalse(Dom.of(html).one("//main").text().contains("How to reach us"));
  }

  /** Gel wears off soon, and numbs neither lip nor tongue; an injection does. */
  @Test
  void gelIsToldFromInjectionsOnEveryPage() throws Exception {
    Sample sample = Sample.of("pocket-gel");
    assertTrue(sample.course().visits().get(0).injections().size() > 0);
    assertTrue(sample.course().visits().get(0).gelCartridges() > 0);
    Dom both = Dom.of(sample.html());
    assertTrue(both.one("//section[@id='patient']").text().contains("Lip, cheek or tongue"));
    assertFalse(both.one("//section[@id='patient']").text().contains("After the gel"));
    Course kept = sample.course();
    Course gelOnly =
        new Course(
            kept.caseName(),
            List.of(kept.visits().get(1)),
            7,
            14,
            6,
            12,
            kept.cost(),
            List.of(),
            List.of(),
            List.of());
    Dom page =
        Dom.of(
            PlanPages.of(
                sample.chart(),
                sample.practice(),
                gelOnly,
                EnumSet.allOf(PageKind.class),
                Language.english()));
    String patient = page.one("//section[@id='patient']").text();
    assertTrue(patient.contains("Only the gum, with a gel and no needle"), patient);
    assertTrue(patient.contains("After the gel"), patient);
    assertFalse(patient.contains("Lip, cheek or tongue"), patient);
    String desk = page.one("//section[@id='desk']").text();
    assertTrue(desk.contains("may treat and use pocket gel; no injection"), desk);
    assertTrue(desk.contains("A gel numbs the gum; no injection is planned."), desk);
    List<Dom> rows =
        page.all(Dom.ofClass("//table", "sequence") + "/tbody/tr[@class='other']").stream()
            .toList();
    assertEquals(2, rows.stream().filter(row -> row.cells().get(2).equals("Gel")).count());
    assertEquals(2, rows.stream().filter(row -> row.cells().get(3).equals("for the gel")).count());
    assertEquals(0, rows.stream().filter(row -> row.cells().get(2).equals("Inject")).count());
    assertTrue(
        page.one("//section[@id='chairside']").text().contains("Gel into LL posterior lingual"));
  }

  @Test
  void mouthWithNothingDueIsSaidOnEveryPage() throws Exception {
    Sample sample = Sample.of("typical");
    Course empty =
        new Course(
            "K-0",
            List.of(),
            7,
            14,
            6,
            12,
            new Cost(0, 0, java.util.Map.of()),
            List.of(),
            List.of(),
            List.of());
    Dom page =
        Dom.of(
            PlanPages.of(
                sample.chart(),
                sample.practice(),
                empty,
                EnumSet.allOf(PageKind.class),
                Language.english()));
    assertTrue(page.one("//section[@id='chairside']").text().contains("no visit is planned"));
    assertTrue(page.one("//section[@id='desk']").text().contains("no visit is to be booked"));
    assertTrue(page.one("//section[@id='patient']").text().contains("no cleaning below the gums"));
    assertEquals(8, page.all(Dom.ofClass("//*", "plain")).size());
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void hostileTextArrivesAsText(int index) throws Exception {
    String hostile = HostileText.ALL.get(index);
    Dom page = Dom.of(HostileText.page(hostile));
    String seen = BidiText.isolated(hostile).strip().replaceAll("\\s+", " ");
    for (String where :
        Stream.of(
                Dom.ofClass("//p", "case") + "//bdi",
                Dom.ofClass("//section", "contact") + "//dd/bdi",
                Dom.ofClass("//ul", "tray") + "/li[b]/bdi",
                Dom.ofClass("//div", "cautions") + "//bdi")
            .toList()) {
      List<Dom> found = page.all(where);
      assertFalse(found.isEmpty(), where);
      found.forEach(text -> assertEquals(seen, text.text(), where));
    }
    assertEquals(List.of(), page.all("//script | //img | //b[text()='x']"));
  }
}
