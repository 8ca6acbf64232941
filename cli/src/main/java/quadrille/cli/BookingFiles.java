package quadrille.cli;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Option;
import quadrille.cli.render.MindWords;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingCalendars;
import quadrille.diary.book.Diary;
import quadrille.diary.exchange.FhirBundle;
import quadrille.document.Expected;
import quadrille.facts.practice.Contact;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;

/** What is written for others when an offer is taken. */
final class BookingFiles {

  @Option(
      names = "--ics-practice",
      order = 40,
      paramLabel = "FILE",
      description =
          "With --take: what was booked, as an iCalendar file for the practice's own calendar.")
  @Nullable
  private String practiceCalendar;

  @ArgGroup(exclusive = false)
  @Nullable
  private PatientFile patient;

  @Option(
      names = "--fhir",
      order = 42,
      paramLabel = "FILE",
      description =
          "With --take: the course and its bookings as FHIR R4, for other programs. For one plan.")
  @Nullable
  private String fhir;

  /** The patient's own file, and whose name it has. */
  private static final class PatientFile {

    @Option(
        names = "--ics-patient",
        order = 41,
        required = true,
        paramLabel = "FILE",
        description =
            "With --take: the same for the patient, with no word of their health. For one plan.")
    private String calendar = "";

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

  /**
   * Checks what was asked for.
   *
   * @param onePatient whether all bookings are of one patient
   * @param answer where the answer goes; its file must be none of these
   * @param inputs the files that the command reads
   */
  void check(boolean onePatient, OutputOption answer, List<String> inputs) throws StopException {
    List<String> files = files();
    if (!onePatient && (patient != null || fhir != null)) {
      throw StopException.usage(
          "--ics-patient and --fhir: are for one plan at a time; no patient's file tells of"
              + " another.");
    }
    expected = SideFiles.check(files, answer, inputs);
  }

  /** Checks that no calendar that the diary names is written over. */
  void checkBeside(OutputOption answer, List<String> calendars) throws StopException {
    SideFiles.check(files(), answer, calendars);
  }

  /** The practice file's name; none where none is read. */
  List<String> inputs() {
    return patient == null || patient.practice == null ? List.of() : List.of(patient.practice);
  }

  /** Reads what the files need; faults wait for the gathering's check. */
  void read(Gathering gathering, Documents documents) throws StopException {
    for (String file : inputs()) {
      practice =
          gathering.read(() -> PracticeReader.read(Documents.name(file), documents.read(file)));
    }
  }

  /** What stood under each file's name when the command began. */
  Map<String, Expected> expected() {
    return expected;
  }

  private List<String> files() {
    return Stream.<@Nullable String>of(
            practiceCalendar, patient == null ? null : patient.calendar, fhir)
        .filter(Objects::nonNull)
        .toList();
  }

  /**
   * Lays all files ready.
   *
   * @param after the diary with the bookings
   * @param fresh those that were booked now
   * @param caseName the first plan's
   * @param now the moment of booking
   */
  void prepare(SideFiles files, Diary after, List<Booking> fresh, String caseName, Instant now)
      throws StopException {
    if (practiceCalendar != null) {
      files.prepare(
          practiceCalendar, BookingCalendars.forPractice(after, fresh, MindWords::of, now));
    }
    if (patient != null) {
      files.prepare(patient.calendar, forPatient(after, fresh, practice, now));
    }
    if (fhir != null) {
      files.prepare(fhir, FhirBundle.of(after, caseName));
    }
  }

  /** A patient's file; without a practice file it names no practice. */
  static String forPatient(
      Diary after, List<Booking> bookings, Gathering.@Nullable Read<Practice> read, Instant now) {
    Practice practice = read == null ? null : read.get();
    return BookingCalendars.forPatient(
        after,
        bookings,
        practice == null ? null : practice.name(),
        practice == null ? Contact.NONE : practice.contact(),
        now);
  }
}
