package quadrille.cli;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;
import quadrille.cli.render.MindWords;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingCalendars;
import quadrille.diary.book.Diary;
import quadrille.diary.exchange.FhirBundle;
import quadrille.document.Expected;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;

/** What is written for others when visits have moved. */
final class RebookFiles {

  @Option(
      names = "--ics-practice",
      order = 40,
      paramLabel = "FILE",
      description =
          "With --write: what has moved or is off, as an iCalendar file for the practice's own"
              + " calendar.")
  @Nullable
  private String practiceCalendar;

  @ArgGroup(exclusive = false)
  private PatientFiles patients = new PatientFiles();

  @Option(
      names = "--fhir",
      order = 42,
      paramLabel = "CASE=FILE",
      description =
          "With --write: a course and its bookings as FHIR R4, for other programs; may be"
              + " repeated.")
  private Map<String, String> fhir = new LinkedHashMap<>();

  /** The patients' own files, and whose name they have. */
  private static final class PatientFiles {

    @Option(
        names = "--ics-patient",
        order = 41,
        required = true,
        paramLabel = "CASE=FILE",
        description =
            "With --write: the same for the patient of a case, with no word of their health; may be"
                + " repeated.")
    private Map<String, String> calendars = new LinkedHashMap<>();

    @Option(
        names = "--practice",
        order = 44,
        paramLabel = "FILE",
        description =
            "With --ics-patient: a practice file that has the practice's name and how it is reached.")
    @Nullable
    private String practice;
  }

  private Gathering.@Nullable Read<Practice> practice;

  private Map<String, Expected> expected = Map.of();

  /** What stood under each file's name when the command began. */
  Map<String, Expected> expected() {
    return expected;
  }

  /**
   * Checks what was asked for.
   *
   * @param diaryFile which is read
   * @param answer where the answer goes; its file must be none of these
   */
  void check(String diaryFile, OutputOption answer) throws StopException {
    List<String> inputs = new ArrayList<>(List.of(diaryFile));
    if (patients.practice != null) {
      inputs.add(patients.practice);
    }
    expected = SideFiles.check(files(), answer, inputs);
  }

  /** Checks that no calendar that the diary names is written over. */
  void checkBeside(OutputOption answer, List<String> calendars) throws StopException {
    SideFiles.check(files(), answer, calendars);
  }

  /** Reads what the files need; faults wait for the gathering's check. */
  void read(Gathering gathering, Documents documents) throws StopException {
    String file = patients.practice;
    if (file != null) {
      practice =
          gathering.read(() -> PracticeReader.read(Documents.name(file), documents.read(file)));
    }
  }

  private List<String> files() {
    List<String> files = new ArrayList<>();
    if (practiceCalendar != null) {
      files.add(practiceCalendar);
    }
    files.addAll(patients.calendars.values());
    files.addAll(fhir.values());
    return files;
  }

  /**
   * Lays all files ready.
   *
   * @param after the diary as it will be
   * @param changed bookings that are new or other than they were
   * @param now the moment of the change
   * @throws StopException where a case is named of which nothing changes, or a file cannot be
   *     written
   */
  void prepare(SideFiles files, Diary after, List<Booking> changed, Instant now)
      throws StopException {
    if (practiceCalendar != null) {
      files.prepare(
          practiceCalendar, BookingCalendars.forPractice(after, changed, MindWords::of, now));
    }
    for (Map.Entry<String, String> one : patients.calendars.entrySet()) {
      files.prepare(
          one.getValue(),
          BookingFiles.forPatient(
              after, of("--ics-patient", changed, one.getKey()), practice, now));
    }
    for (Map.Entry<String, String> one : fhir.entrySet()) {
      of("--fhir", changed, one.getKey());
      files.prepare(one.getValue(), FhirBundle.of(after, one.getKey()));
    }
  }

  private static List<Booking> of(String option, List<Booking> changed, String caseName)
      throws StopException {
    List<Booking> own =
        changed.stream().filter(booking -> booking.caseName().equals(caseName)).toList();
    if (own.isEmpty()) {
      List<String> cases = changed.stream().map(Booking::caseName).distinct().sorted().toList();
      throw StopException.usage(
          option
              + ": nothing changes for \""
              + caseName
              + "\"; "
              + (cases.isEmpty()
                  ? "nor for anybody else."
                  : "something does for " + String.join(", ", cases) + "."));
    }
    return own;
  }
}
