package quadrille.cli;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.StrictErrorHandler;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.data.ParserException;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.component.VEvent;
import org.hl7.fhir.r4.model.Appointment;
import org.hl7.fhir.r4.model.Bundle;

/** What commands wrote for other programs, read by libraries that had no part in the writing. */
final class WrittenFiles {

  private static final FhirContext R4 = FhirContext.forR4();

  private WrittenFiles() {}

  /** The events of an iCalendar file, as ical4j reads it. */
  static List<VEvent> events(Path file) throws IOException {
    try {
      Calendar calendar = new CalendarBuilder().build(new StringReader(Files.readString(file)));
      return calendar.getComponents("VEVENT");
    } catch (ParserException wrong) {
      throw new AssertionError(file + " is no calendar", wrong);
    }
  }

  /** A property's value; empty where the event has none. */
  static String value(VEvent event, String property) {
    return event.getProperty(property).map(found -> found.getValue()).orElse("");
  }

  /**
   * The appointments of a bundle that the reference parser finds nothing unknown or ill-formed in;
   * the library's own tests hold bundles to the validator.
   */
  static List<Appointment> appointments(Path file) throws IOException {
    List<Appointment> appointments = new ArrayList<>();
    for (Bundle.BundleEntryComponent entry :
        R4.newJsonParser()
            .setParserErrorHandler(new StrictErrorHandler())
            .parseResource(Bundle.class, Files.readString(file))
            .getEntry()) {
      if (entry.getResource() instanceof Appointment appointment) {
        appointments.add(appointment);
      }
    }
    return appointments;
  }
}
