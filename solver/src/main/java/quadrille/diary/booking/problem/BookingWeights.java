package quadrille.diary.booking.problem;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;

/**
 * What a good booking is worth, in points; ten points are a day that one patient finishes sooner.
 * The usual weights, each with its source, are in {@code booking-weights.json}; no study of them
 * was found.
 *
 * @param finishDay for each day from asking to the last visit
 * @param waitDaySquared times the square of the days from asking to the first visit: who has waited
 *     long waits ever more dearly
 * @param clinicianChange each time that the next visit is with another clinician
 * @param otherClinician each visit that is not with the clinician whom the patient prefers
 * @param otherTime each visit that does not lie wholly in the hours that the patient prefers
 * @param sliverMinute for each minute that bookings leave over and nobody can use
 * @param usableMinutes fewest minutes in a row that are of any use
 * @param injectorMinute for each minute for which another clinician comes in to inject
 * @param longerGapDay for each day by which a gap is longer than the longest of its plan, where a
 *     clinician allows it
 */
public record BookingWeights(
    int finishDay,
    int waitDaySquared,
    int clinicianChange,
    int otherClinician,
    int otherTime,
    int sliverMinute,
    int usableMinutes,
    int injectorMinute,
    int longerGapDay) {

  /** The value of a file's {@code schema}. */
  public static final String SCHEMA = "quadrille/booking-weights/1";

  private static final int MOST = 10_000;
  private static final int FIRST = 10_000_000;

  /** As in the usual weights. */
  private static final int INJECTOR_MINUTE = 1;

  private static final int LONGER_GAP_DAY = 20;

  private static final String RESOURCE = "booking-weights.json";
  private static final BookingWeights DEFAULTS = load();

  public BookingWeights {
    notNegative("finishDay", finishDay);
    notNegative("waitDaySquared", waitDaySquared);
    notNegative("clinicianChange", clinicianChange);
    notNegative("otherClinician", otherClinician);
    notNegative("otherTime", otherTime);
    notNegative("sliverMinute", sliverMinute);
    notNegative("usableMinutes", usableMinutes);
    notNegative("injectorMinute", injectorMinute);
    notNegative("longerGapDay", longerGapDay);
  }

  private static void notNegative(String name, int value) {
    if (value < 0) {
      throw new IllegalArgumentException("The weight " + name + " (" + value + ") is negative.");
    }
  }

  /** The usual weights. */
  public static BookingWeights defaults() {
    return DEFAULTS;
  }

  /**
   * Reads a file of weights; all of them, each with its source.
   *
   * @param source the file's name, for faults
   * @throws InvalidDocumentException with all that is wrong with it
   */
  public static BookingWeights read(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    Fields fields =
        JsonDocument.read(source, text, faults)
            .object(
                "schema",
                "finishDay",
                "waitDaySquared",
                "clinicianChange",
                "otherClinician",
                "otherTime",
                "sliverMinute",
                "usableMinutes",
                "injectorMinute",
                "longerGapDay");
    Node schema = fields.required("schema");
    if (!schema.is(SCHEMA)) {
      schema.fault('"' + SCHEMA + '"');
    }
    BookingWeights weights =
        new BookingWeights(
            weight(fields, "finishDay"),
            weight(fields, "waitDaySquared"),
            weight(fields, "clinicianChange"),
            weight(fields, "otherClinician"),
            weight(fields, "otherTime"),
            weight(fields, "sliverMinute"),
            weight(fields, "usableMinutes"),
            // Files of before someone could come in to inject, or gaps could grow, do not have
            // these.
            fields.has("injectorMinute") ? weight(fields, "injectorMinute") : INJECTOR_MINUTE,
            fields.has("longerGapDay") ? weight(fields, "longerGapDay") : LONGER_GAP_DAY);
    faults.check();
    return weights;
  }

  /** The same weights, but that finishing early goes before all else. */
  public BookingWeights finishFirst() {
    return new BookingWeights(
        FIRST,
        waitDaySquared,
        clinicianChange,
        otherClinician,
        otherTime,
        sliverMinute,
        usableMinutes,
        injectorMinute,
        longerGapDay);
  }

  /** The same weights, but that one clinician throughout goes before all else. */
  public BookingWeights clinicianFirst() {
    return new BookingWeights(
        finishDay,
        waitDaySquared,
        FIRST,
        otherClinician,
        otherTime,
        sliverMinute,
        usableMinutes,
        injectorMinute,
        longerGapDay);
  }

  /** The same weights, but that the patient's preferences go before all else. */
  public BookingWeights wishesFirst() {
    return new BookingWeights(
        finishDay,
        waitDaySquared,
        clinicianChange,
        FIRST,
        FIRST,
        sliverMinute,
        usableMinutes,
        injectorMinute,
        longerGapDay);
  }

  private static int weight(Fields fields, String name) {
    Fields weight = fields.required(name).object("value", "source");
    weight.required("source").text();
    return weight.required("value").whole(0, MOST);
  }

  private static BookingWeights load() {
    try (InputStream in = BookingWeights.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException(RESOURCE + " is missing from the program.");
      }
      return read(RESOURCE, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InvalidDocumentException e) {
      throw new IllegalStateException(e);
    }
  }
}
