package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.StatisticsReport;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonChanges;
import quadrille.document.PublishedSchema;

/**
 * Holds the published schema against the reader, by an independent implementation of JSON Schema
 * 2020-12: what the schema refuses the reader refuses too, and what the reader alone refuses is
 * what a schema cannot say.
 */
final class DiarySchemaTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final PublishedSchema SCHEMA = new PublishedSchema("diary");

  /** What the schema says in its description that it cannot say. */
  private static final List<String> BEYOND_A_SCHEMA =
      List.of(
          " a second time;",
          "; allowed: a moment after the start",
          "; allowed: a break within the hours",
          "; allowed: a time after ",
          "; allowed: the offset that ",
          "; allowed: a number above ",
          "; allowed: a minute after ",
          "; allowed: a moment of the visit",
          "; allowed: a moment after it begins",
          "; allowed: a visit after visit ",
          "/alert: found \"",
          "; allowed: the first day, ",
          "; allowed: a case of /courses",
          "; allowed: a visit of its course",
          "; allowed: at most 3660 days off",
          " days or more",
          " weeks or more",
          "no set, since the stock has none",
          "; allowed: a time zone of the IANA database");

  private static List<Fault> faults(String json) {
    try {
      DiaryReader.read("diary.json", json);
      return List.of();
    } catch (InvalidDocumentException refused) {
      return refused.faults();
    }
  }

  @Provide
  Arbitrary<Diary> diaries() {
    return DiaryArbitraries.diaries();
  }

  @Example
  void theSchemaIsAValidSchema() {
    assertEquals(List.of(), SCHEMA.ownErrors());
  }

  @Property(tries = 100, seed = "20260307", edgeCases = EdgeCasesMode.NONE)
  void everyDiaryThatIsWrittenIsValid(@ForAll("diaries") Diary diary) {
    assertTrue(SCHEMA.allows(DiaryWriter.write(diary)));
  }

  @Example
  void brokenDiariesAreRefusedWhereTheSchemaCanSaySo() {
    SCHEMA.assertJudges(BrokenDiariesTest.cases(), 25);
  }

  /** A valid diary with one to three values changed, left out, added or copied. */
  @StatisticsReport(StatisticsReport.StatisticsReportMode.OFF)
  @Property(tries = 600, seed = "20260308", edgeCases = EdgeCasesMode.NONE)
  void bothJudgeAChangedDiaryAlike(
      @ForAll("diaries") Diary diary, @ForAll("diaries") Diary other, @ForAll long seed)
      throws IOException {
    Random random = new Random(seed);
    JsonNode root = JSON.readTree(DiaryWriter.write(diary));
    JsonNode donor = JSON.readTree(DiaryWriter.write(other));
    for (int change = random.nextInt(6) / 2; change >= 0; change--) {
      JsonChanges.change(root, donor, KEYS, VALUES.get(random.nextInt(VALUES.size())), random);
    }
    String json = JSON.writerWithDefaultPrettyPrinter().writeValueAsString(root);
    List<String> faults = faults(json).stream().map(Fault::message).toList();
    List<String> plain =
        faults.stream()
            .filter(fault -> BEYOND_A_SCHEMA.stream().noneMatch(fault::contains))
            // Names of what the diary has.
            .filter(fault -> !fault.matches(".*/(sets/[0-9]+|clinician|chair): found \".*"))
            .toList();
    boolean allowed = SCHEMA.allows(json);
    if (allowed) {
      assertEquals(List.of(), plain, json);
    } else {
      assertTrue(!faults.isEmpty(), json);
    }
    PublishedSchema.assertBothAreTried(allowed);
  }

  private static final List<String> KEYS =
      List.of(
          "schema",
          "zone",
          "clinicians",
          "chairs",
          "closed",
          "stock",
          "courses",
          "bookings",
          "busy",
          "calendars",
          "exportKey",
          "id",
          "name",
          "may",
          "hours",
          "off",
          "extra",
          "gapDays",
          "sets",
          "needs",
          "needles",
          "injections",
          "from",
          "to",
          "first",
          "last",
          "breaks",
          "prefers",
          "available",
          "journal",
          "until",
          "ended",
          "did",
          "because",
          "other");

  private static final List<JsonNode> VALUES = values();

  private static List<JsonNode> values() {
    JsonNodeFactory make = JsonNodeFactory.instance;
    List<JsonNode> values = new ArrayList<>();
    for (String text :
        List.of(
            "",
            " ",
            "\u00a0",
            "a\nb",
            "K-0",
            "c0",
            "r0",
            "kit",
            "inject",
            "monday",
            "Monday",
            "08:30",
            "8:30",
            "24:00",
            "00:00",
            "23:59",
            "2026-03-02",
            "2026-02-30",
            "2026-3-2",
            "2026-03-02T09:00:00+01:00",
            "2026-03-02T09:00:30+01:00",
            "2026-03-02T09:00:00",
            "2026-03-02T08:00:00Z",
            "Europe/Rome",
            "Europe/Rom",
            "UTC",
            "done",
            "Done",
            "quadrille/diary/1")) {
      values.add(make.textNode(text));
    }
    for (int number : List.of(-1, 0, 1, 5, 7, 10, 15, 60, 99, 100, 365, 366, 1440, 1441)) {
      values.add(make.numberNode(number));
    }
    values.add(make.numberNode(2.5));
    values.add(make.booleanNode(true));
    values.add(make.nullNode());
    values.add(make.objectNode());
    values.add(make.arrayNode());
    values.add(make.arrayNode().add("monday").add("tuesday"));
    return values;
  }
}
