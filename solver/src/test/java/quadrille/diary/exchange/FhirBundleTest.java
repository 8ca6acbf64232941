package quadrille.diary.exchange;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Appointment;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Capability;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Deed;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Journal;
import quadrille.diary.book.Preferences;
import quadrille.diary.book.Signature;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.Why;

/** Read and judged by the reference implementation's parser and validator, without a network. */
class FhirBundleTest {
  private static final String KEY = "0123456789abcdef0123456789abcdef";
  private static final FhirContext R4 = FhirContext.forR4();
  private static final FhirValidator VALIDATOR = validator();

  private static FhirValidator validator() {
    ValidationSupportChain chain =
        new ValidationSupportChain(
            new DefaultProfileValidationSupport(R4),
            new CommonCodeSystemsTerminologyService(R4),
            new InMemoryTerminologyServerValidationSupport(R4));
    return R4.newValidator().registerValidatorModule(new FhirInstanceValidator(chain));
  }

  private static List<String> faults(String json) {
    List<String> faults = new ArrayList<>();
    for (SingleValidationMessage message : VALIDATOR.validateWithResult(json).getMessages()) {
      ResultSeverityEnum severity = message.getSeverity();
      if (severity == ResultSeverityEnum.ERROR || severity == ResultSeverityEnum.FATAL) {
        faults.add(message.getLocationString() + ": " + message.getMessage());
      }
    }
    return faults;
  }

  private static Booking booking(int visit, String start, BookingStatus status) {
    return new Booking(
        "K-1/" + visit,
        "K-1",
        visit,
        Instant.parse(start),
        70,
        "ada",
        "one",
        List.of(),
        List.of(Capability.INJECT),
        status);
  }

  private static Diary diary(String zone, String clinician, List<Booking> bookings) {
    List<VisitRequest> visits = new ArrayList<>();
    for (int visit = 1; visit <= 3; visit++) {
      boolean first = visit == 1;
      visits.add(
          new VisitRequest(
              visit, 70, List.of(Capability.INJECT), List.of(), first ? 0 : 7, first ? 0 : 14));
    }
    CourseRequest course =
        new CourseRequest(
            "K-1",
            LocalDate.of(2026, 3, 2),
            LocalDate.of(2026, 3, 3),
            visits,
            6,
            12,
            Availability.ANY,
            Preferences.NONE);
    return new Diary(
            ZoneId.of(zone),
            10,
            List.of(
                new Clinician(
                    "ada", clinician, List.of(Capability.INJECT), List.of(), List.of(), List.of())),
            List.of(new Chair("one", "Chair 1", List.of())),
            List.of(),
            new SterileStock(60, List.of()),
            List.of(course),
            bookings,
            List.of(),
            List.of())
        .withExportKey(KEY);
  }

  private static Bundle parsed(String json) {
    return R4.newJsonParser().parseResource(Bundle.class, json);
  }

  private static <T extends Resource> List<T> all(Bundle bundle, Class<T> kind) {
    return bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(kind::isInstance)
        .map(kind::cast)
        .toList();
  }

  @Test
  void theValidatorFindsWhatIsWrong() {
    String json =
        FhirBundle.of(
            diary(
                "Europe/Berlin",
                "Ada",
                List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.PROMISED))),
            "K-1");
    assertFalse(faults(json.replace("\"booked\"", "\"reserved\"")).isEmpty());
    assertFalse(faults(json.replace("\"intent\": \"plan\",", "")).isEmpty());
  }

  @ParameterizedTest
  @EnumSource(BookingStatus.class)
  void aBookingOfAnyStatusIsValid(BookingStatus status) {
    String json =
        FhirBundle.of(
            diary("Europe/Berlin", "Ada", List.of(booking(1, "2026-03-24T08:00:00Z", status))),
            "K-1");
    assertEquals(List.of(), faults(json));
    assertEquals(1, all(parsed(json), Appointment.class).size());
  }

  /** Sent a second time, it changes what is there. */
  @Test
  void everyResourceIsPutUnderItsIdentifierAndACallingOffHasItsReason() {
    Diary stands =
        diary(
            "Europe/Berlin",
            "Ada",
            List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.PROMISED)));
    Diary off =
        Journal.entered(
            stands,
            stands.withBookings(
                List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.CANCELLED))),
            Deed.CALL_OFF,
            new Signature("Ada", Instant.parse("2026-03-20T08:00:00Z"), Why.EQUIPMENT, null),
            Map.of());
    String json = FhirBundle.of(off, "K-1");
    assertEquals(List.of(), faults(json));
    Bundle bundle = parsed(json);
    assertEquals(Bundle.BundleType.TRANSACTION, bundle.getType());
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      assertEquals(Bundle.HTTPVerb.PUT, entry.getRequest().getMethod());
      assertTrue(
          entry
              .getRequest()
              .getUrl()
              .startsWith(entry.getResource().fhirType() + "?identifier=urn%3Auuid%3A"),
          entry.getRequest().getUrl());
    }
    Appointment appointment = all(bundle, Appointment.class).get(0);
    assertEquals("maint", appointment.getCancelationReason().getCodingFirstRep().getCode());
    assertTrue(appointment.getIdentifierFirstRep().getSystem().startsWith("urn:uuid:"));
  }

  /** Clinician and chair are taken; only the patient has not been promised it. */
  @Test
  void whatIsHeldIsPending() {
    Bundle bundle =
        parsed(
            FhirBundle.of(
                diary(
                    "Europe/Berlin",
                    "Ada",
                    List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.HELD))),
                "K-1"));
    Appointment held = all(bundle, Appointment.class).get(0);
    assertEquals(Appointment.AppointmentStatus.PENDING, held.getStatus());
    assertEquals(
        List.of(
            Appointment.ParticipationStatus.NEEDSACTION,
            Appointment.ParticipationStatus.ACCEPTED,
            Appointment.ParticipationStatus.ACCEPTED),
        held.getParticipant().stream().map(one -> one.getStatus()).toList());
  }

  @ParameterizedTest
  @ValueSource(strings = {"Europe/Berlin", "America/New_York", "Australia/Lord_Howe"})
  void timesAreThoseOfTheDiaryOverBothChangesOfClock(String zone) {
    List<Booking> bookings =
        List.of(
            booking(1, "2026-03-06T15:00:00Z", BookingStatus.PROMISED),
            booking(2, "2026-03-30T15:00:00Z", BookingStatus.PROMISED),
            booking(3, "2026-11-03T15:00:00Z", BookingStatus.PROMISED));
    String json = FhirBundle.of(diary(zone, "Ada", bookings), "K-1");
    assertEquals(List.of(), faults(json));
    List<Appointment> written = all(parsed(json), Appointment.class);
    for (int i = 0; i < bookings.size(); i++) {
      assertEquals(bookings.get(i).start(), written.get(i).getStart().toInstant());
      assertEquals(bookings.get(i).end(), written.get(i).getEnd().toInstant());
    }
  }

  @Test
  void theCarePlanPointsToWhatIsBookedAndSaysWhatIsNot() {
    List<Booking> bookings =
        List.of(
            booking(1, "2026-03-24T08:00:00Z", BookingStatus.DONE),
            booking(2, "2026-04-02T08:00:00Z", BookingStatus.CANCELLED));
    Bundle bundle = parsed(FhirBundle.of(diary("Europe/Berlin", "Ada", bookings), "K-1"));
    CarePlan plan = all(bundle, CarePlan.class).get(0);
    assertEquals(CarePlan.CarePlanStatus.ACTIVE, plan.getStatus());
    assertEquals(3, plan.getActivity().size());
    String address = plan.getActivity().get(0).getReference().getReference();
    assertTrue(
        bundle.getEntry().stream()
            .anyMatch(
                entry ->
                    entry.getFullUrl().equals(address)
                        && entry.getResource() instanceof Appointment));
    assertTrue(plan.getActivity().get(1).getDetail().getDescription().contains("visit 2 of 3"));
  }

  @Test
  void theReevaluationIsCountedFromTheLastVisit() {
    List<Booking> bookings =
        List.of(
            booking(1, "2026-03-10T08:00:00Z", BookingStatus.PROMISED),
            booking(2, "2026-03-17T08:00:00Z", BookingStatus.PROMISED),
            booking(3, "2026-03-24T08:00:00Z", BookingStatus.PROMISED));
    Bundle bundle = parsed(FhirBundle.of(diary("Europe/Berlin", "Ada", bookings), "K-1"));
    CarePlan plan = all(bundle, CarePlan.class).get(0);
    CarePlan.CarePlanActivityDetailComponent last = plan.getActivity().get(3).getDetail();
    // 24 March and 6 weeks is 5 May; and 12 weeks, 16 June.
    assertEquals("2026-05-05", last.getScheduledPeriod().getStartElement().getValueAsString());
    assertEquals("2026-06-16", last.getScheduledPeriod().getEndElement().getValueAsString());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"<script>alert(1)</script> & \"x\"", "\u202Eright to left", " \u0007 ", "tab\tin"})
  void hostileNamesArriveAsText(String name) {
    String json =
        FhirBundle.of(
            diary(
                "Europe/Berlin",
                name,
                List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.PROMISED))),
            "K-1");
    assertEquals(List.of(), faults(json));
    assertTrue(
        json.lines()
            .filter(line -> line.contains("\"div\""))
            .noneMatch(line -> line.contains("<script>")),
        json);
  }

  /** What could be tried by whoever knows how a practice numbers its cases and bookings. */
  @Test
  void onlyThePatientTellsTheCaseAndNothingElseCanBeGuessed() {
    Diary diary =
        diary(
            "Europe/Berlin",
            "Ada",
            List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.PROMISED)));
    String json = FhirBundle.of(diary, "K-1");
    Bundle bundle = parsed(json);
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      assertFalse(entry.getRequest().getUrl().contains("K-1"), entry.getRequest().getUrl());
      String type = entry.getResource().fhirType();
      for (String key : List.of("K-1", "K-1/1")) {
        String guess = "quadrille " + type + " " + key;
        assertFalse(json.contains(UUID.nameUUIDFromBytes(guess.getBytes(UTF_8)).toString()), guess);
      }
    }
    List<Identifier> patient = all(bundle, Patient.class).get(0).getIdentifier();
    assertEquals("K-1", patient.get(1).getValue());
    String other = FhirBundle.of(diary.withExportKey(KEY.replace('0', '1')), "K-1");
    for (Bundle.BundleEntryComponent entry : parsed(other).getEntry()) {
      assertFalse(json.contains(entry.getFullUrl()), entry.getFullUrl());
    }
  }

  @Test
  void aNameThatTurnsTheWritingEndsWhereItEnds() {
    String json =
        FhirBundle.of(
            diary(
                "Europe/Berlin",
                "\u202Eada",
                List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.PROMISED))),
            "K-1");
    assertTrue(json.contains("\u2068\u202Eada\u2069"), json);
    assertFalse(json.replace("\u2068\u202Eada\u2069", "").contains("\u202E"), json);
  }

  @Test
  void aCourseThatTheDiaryDoesNotKnowIsRefused() {
    Diary diary = diary("Europe/Berlin", "Ada", List.of());
    assertThrows(IllegalArgumentException.class, () -> FhirBundle.of(diary, "K-2"));
  }

  @Test
  void theSameDiaryGivesTheSameBytes() {
    Diary diary =
        diary(
            "Europe/Berlin",
            "Ada",
            List.of(booking(1, "2026-03-24T08:00:00Z", BookingStatus.PROMISED)));
    assertEquals(FhirBundle.of(diary, "K-1"), FhirBundle.of(diary, "K-1"));
  }
}
