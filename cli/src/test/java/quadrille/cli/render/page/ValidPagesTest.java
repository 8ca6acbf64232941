package quadrille.cli.render.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.cli.Conformance;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.file.DiaryFile;
import quadrille.diary.file.LoadedDiary;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.Reassessment;

/** Every kind of page that is printed is valid HTML, in each language. */
final class ValidPagesTest {

  @ParameterizedTest
  @MethodSource("quadrille.cli.render.page.Sample#names")
  void aCourseIsValid(String name) throws Exception {
    Sample sample = Sample.of(name);
    for (String language : Language.codes()) {
      check(name + " " + language, sample.html(EnumSet.allOf(PageKind.class), language));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"fresh", "half", "restaged", "finished", "gel", "universal"})
  void aCourseUnderWayIsValid(String name) throws Exception {
    for (String language : Language.codes()) {
      check(name + " " + language, ProgressSample.html(ProgressSample.of(name), language));
    }
  }

  @Test
  void aComparisonIsValid() throws Exception {
    Sample sample = Sample.of("weight-missing");
    check(
        "comparison",
        ComparePages.of(sample.chart(), sample.practice(), ComparePagesTest.small(sample)));
  }

  @Test
  void aWeekIsValid() throws Exception {
    LoadedDiary loaded = DiaryFile.read(Path.of("../demo-data/diary.json"));
    LocalDate monday = LocalDate.of(2026, 3, 2);
    Diary diary = loaded.over(LoadedDiary.days(loaded.diary(), monday, monday.plusDays(6)));
    check("week", DiaryPages.of(diary, DiaryWeek.of(diary, monday, monday), List.of("A note.")));
  }

  @Test
  void aReassessmentIsValid() throws Exception {
    String text = Files.readString(Path.of("../demo-data/moderate.json"));
    Chart before = ChartReader.read("before.json", text);
    Chart after = ChartReader.read("after.json", text.replace("true", "false"));
    for (String language : Language.codes()) {
      check(
          "reassessment " + language,
          ReassessPages.of(
              before,
              after,
              Sample.practiceOfItsOwn(),
              Reassessment.of(before, after),
              EnumSet.allOf(ReassessKind.class),
              Language.of(language)));
    }
  }

  /** The checker finds what is wrong, and names the place. */
  @Test
  void whatIsNotValidIsFound() throws Exception {
    String valid =
        "<!DOCTYPE html><html lang=\"en\"><head><title>T</title></head><body>%s</body></html>";
    check("valid", valid.formatted("<p>one</p>"));
    List<String> faults = Conformance.faults("broken", valid.formatted("<ul><p>one</p></ul>"));
    assertEquals(1, faults.size(), faults::toString);
  }

  private static void check(String what, String html) throws Exception {
    assertEquals("", String.join("\n", Conformance.faults(what, html)));
  }
}
