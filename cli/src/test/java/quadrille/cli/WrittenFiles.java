package quadrille.cli;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
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
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
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

  /** The appointments of a bundle that the reference validator finds no error in. */
  static List<Appointment> appointments(Path file) throws IOException {
    String json = Files.readString(file);
    FhirValidator validator =
        R4.newValidator()
            .registerValidatorModule(
                new FhirInstanceValidator(
                    new ValidationSupportChain(
                        new DefaultProfileValidationSupport(R4),
                        new CommonCodeSystemsTerminologyService(R4),
                        new InMemoryTerminologyServerValidationSupport(R4))));
    validator.validateWithResult(json).getMessages().stream()
        .filter(message -> message.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
        .findFirst()
        .ifPresent(
            message -> {
              throw new AssertionError(message.getLocationString() + ": " + message.getMessage());
            });
    List<Appointment> appointments = new ArrayList<>();
    for (Bundle.BundleEntryComponent entry :
        R4.newJsonParser().parseResource(Bundle.class, json).getEntry()) {
      if (entry.getResource() instanceof Appointment appointment) {
        appointments.add(appointment);
      }
    }
    return appointments;
  }
}
