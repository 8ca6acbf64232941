package quadrille.facts.practice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;

final class PracticeSettingsTest {

  private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

  private static Setting setting(Practice practice, String pointer) {
    return PracticeSettings.of(practice).stream()
        .filter(one -> one.pointer().equals(pointer))
        .findFirst()
        .orElseThrow();
  }

  private static String changed(
      @Nullable String file, String pointer, @Nullable String value, String source)
      throws InvalidDocumentException {
    Practice practice =
        file == null ? PracticeReader.defaults() : PracticeReader.read("practice.json", file);
    return PracticeSettings.changed(file, setting(practice, pointer), value, source, "Ines", DAY);
  }

  @Test
  void everySettingIsThereOnceWithItsSource() {
    List<Setting> settings = PracticeSettings.of(PracticeReader.defaults());
    assertEquals(settings.size(), settings.stream().map(Setting::pointer).distinct().count());
    assertTrue(settings.size() > 500, settings.size() + "");
    assertTrue(
        settings.stream()
            .filter(one -> one.kind() == Setting.Kind.FIGURE)
            .noneMatch(one -> one.source().isBlank()));
    Setting longest = setting(PracticeReader.defaults(), "/appointments/longestVisitMinutes");
    assertEquals("90", longest.value());
  }

  @Test
  void aFigureIsChangedAndEverythingElseStays() throws Exception {
    String own = "{\"schema\": \"quadrille/practice/1\", \"minutes\": {\"finishingSeconds\": 33}}";
    String text = changed(own, "/appointments/longestVisitMinutes", "70", "our chairs");
    Practice after = PracticeReader.read("practice.json", text);
    assertEquals(new Figure(70, "our chairs"), after.appointments().longestVisitMinutes());
    assertEquals(
        PracticeReader.read("practice.json", own).withAppointments(after.appointments()), after);
    assertEquals(
        List.of(new SettingChange("/appointments/longestVisitMinutes", "90", "70", "Ines", DAY)),
        PracticeSettings.changes(text));
  }

  @Test
  void whatIsAsTheDefaultHasItIsLeftOutAgain() throws Exception {
    String text = changed(null, "/appointments/longestVisitMinutes", "70", "");
    assertTrue(text.contains(Figure.OWN), text);
    String back = changed(text, "/appointments/longestVisitMinutes", null, "");
    assertFalse(back.contains("\"appointments\""), back);
    assertEquals(2, PracticeSettings.changes(back).size());
    assertEquals(
        PracticeSettings.of(PracticeReader.defaults()).subList(1, 40),
        PracticeSettings.of(PracticeReader.read("practice.json", back)).subList(1, 40));
  }

  @Test
  void aSettingWithinAListBringsTheListIntoTheFile() throws Exception {
    String pointer = "/minutes/furcationFactor/2";
    String text = changed(null, pointer, "1.9", "ours");
    Practice after = PracticeReader.read("practice.json", text);
    assertEquals("1.9", setting(after, pointer).value());
    assertEquals(
        setting(PracticeReader.defaults(), "/minutes/furcationFactor/1"),
        setting(after, "/minutes/furcationFactor/1"));
    assertFalse(changed(text, pointer, null, "").contains("furcationFactor\": ["));
  }

  @Test
  void anyKindCanBeChanged() throws Exception {
    assertEquals(
        "false",
        value(
            changed(null, "/appointments/midlineInfiltration", "false", ""),
            "/appointments/midlineInfiltration"));
    assertEquals(
        "5",
        value(
            changed(null, "/inserts/broad flat/sterileSets", "5", ""),
            "/inserts/broad flat/sterileSets"));
    List<String> agents = new ArrayList<>(PracticeReader.defaults().preferredAgents());
    java.util.Collections.reverse(agents);
    String reversed = String.join(" , ", agents);
    assertEquals(
        String.join(", ", agents),
        value(changed(null, "/preferredAgents", reversed, ""), "/preferredAgents"));
    assertEquals("Ours", value(changed(null, "/name", " Ours ", ""), "/name"));
  }

  /** Stop questions are sentences, and sentences hold commas. */
  @Test
  void aTextThatHoldsACommaStaysWhole() throws Exception {
    String pointer = "/alerts/diabetes/stopQuestions";
    List<String> before = questions(PracticeReader.defaults());
    assertTrue(before.get(0).contains(","), before.get(0));
    String now = setting(PracticeReader.defaults(), pointer).value();
    String text = changed(null, pointer, now + ", \"A \"\"snack\"\", at hand?\"", "");
    List<String> more = new ArrayList<>(before);
    more.add("A \"snack\", at hand?");
    assertEquals(more, questions(PracticeReader.read("practice.json", text)));
    assertEquals(now + ", \"A \"\"snack\"\", at hand?\"", value(text, pointer));
  }

  private static List<String> questions(Practice practice) {
    return practice.alertRule(Alert.DIABETES).orElseThrow().stopQuestions();
  }

  private static String value(String file, String pointer) throws InvalidDocumentException {
    return setting(PracticeReader.read("practice.json", file), pointer).value();
  }

  @Test
  void whatIsInvalidIsRefusedWithWhatIsAllowed() {
    assertRefused("/appointments/longestVisitMinutes", "1,5", "a number, with a point");
    assertRefused("/appointments/longestVisitMinutes", "", "a number, with a point");
    assertRefused("/appointments/longestVisitMinutes", "9000", "number from");
    assertRefused("/appointments/midlineInfiltration", "perhaps", "true or false");
    assertRefused("/preferredAgents", "cocoa", "cocoa");
    assertRefused("/name", " ", "a text of 1 to 80");
  }

  private static void assertRefused(String pointer, String value, String why) {
    InvalidDocumentException refused =
        assertThrows(InvalidDocumentException.class, () -> changed(null, pointer, value, ""));
    assertTrue(refused.faults().toString().contains(why), refused.faults().toString());
  }
}
