package quadrille.diary.exchange;

import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.ExportNames;
import quadrille.diary.book.InjectorCall;
import quadrille.diary.book.Journal;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.Why;
import quadrille.document.BidiText;
import quadrille.document.JsonLayout;

/**
 * A course in a diary as a FHIR R4 Bundle of the type {@code transaction}: a CarePlan with the
 * course's visits, an Appointment for each booking of it (those that were cancelled or missed,
 * too), and the Patient, Practitioners and Locations that they point to.
 *
 * <p>Each resource is put under its identifier, so that sending the Bundle again changes what a
 * server has, and makes nothing a second time. Identifiers are of systems of this program's own.
 *
 * <p>A patient is known by the case alone, which stands in the Patient only; no name and no finding
 * of the chart is written. Every resource has an address by the diary's {@link ExportNames}, and so
 * have CarePlans, Appointments and Patients their identifier: the same diary gives the same bytes,
 * a booking that was moved keeps its address, and what a server logs of addresses tells no case.
 */
public final class FhirBundle {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
  private static final DateTimeFormatter SECONDS =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ssXXX", Locale.ROOT);

  private final Diary diary;
  private final CourseRequest course;
  private final ExportNames names;
  private final ArrayNode entries = NODES.arrayNode();

  private FhirBundle(Diary diary, CourseRequest course) {
    this.diary =
        diary.withBookings(
            diary.bookings().stream()
                .filter(booking -> booking.caseName().equals(course.caseName()))
                .toList());
    this.course = course;
    this.names = ExportNames.of(diary);
  }

  /**
   * The Bundle as JSON, with a line end after it.
   *
   * @throws IllegalArgumentException if the diary does not know the course, or has no key
   */
  public static String of(Diary diary, String caseName) {
    CourseRequest course =
        diary
            .course(caseName)
            .orElseThrow(
                () -> new IllegalArgumentException("The diary has no course (" + caseName + ")."));
    return written(new FhirBundle(diary, course).bundle());
  }

  private ObjectNode bundle() {
    List<Booking> bookings =
        Journal.told(diary).stream()
            .filter(booking -> booking.caseName().equals(course.caseName()))
            .sorted(Comparator.comparing(Booking::start).thenComparing(Booking::id))
            .toList();
    carePlan(bookings);
    bookings.forEach(this::appointment);
    patient();
    bookings.stream()
        .flatMap(
            one ->
                Stream.concat(
                    Stream.of(one.clinician()),
                    one.injectors().stream().map(InjectorCall::clinician)))
        .distinct()
        .sorted()
        .forEach(id -> diary.clinician(id).ifPresent(this::practitioner));
    bookings.stream()
        .map(Booking::chair)
        .distinct()
        .sorted()
        .forEach(id -> diary.chair(id).ifPresent(this::location));
    ObjectNode bundle = NODES.objectNode();
    bundle.put("resourceType", "Bundle");
    bundle.put("type", "transaction");
    bundle.set("entry", entries);
    return bundle;
  }

  private void carePlan(List<Booking> bookings) {
    ObjectNode plan = resource("CarePlan", course.caseName());
    narrative(
        plan,
        "Staged periodontal debridement in "
            + visits(course.visits().size())
            + ". A proposal for a licensed clinician to check.");
    identifier(plan, "CarePlan", course.caseName());
    plan.put(
        "status", course.ended() != null ? "revoked" : over(bookings) ? "completed" : "active");
    plan.put("intent", "plan");
    plan.put("title", "Staged periodontal debridement");
    plan.put(
        "description",
        "Debridement of the mouth in "
            + visits(course.visits().size())
            + ". A proposal for a licensed clinician to check; dose limits and codes follow local"
            + " rules.");
    plan.set("subject", reference("Patient", course.caseName()));
    period(bookings).ifPresent(period -> plan.set("period", period));
    ArrayNode activities = plan.putArray("activity");
    for (VisitRequest visit : course.visits()) {
      Optional<Booking> standing = diary.standing(course.caseName(), visit.number());
      ObjectNode activity = activities.addObject();
      if (standing.isPresent()) {
        activity.set("reference", reference("Appointment", standing.get().id()));
      } else {
        ObjectNode detail = activity.putObject("detail");
        detail.put("kind", "Appointment");
        detail.put("status", "not-started");
        detail.put("description", "To be booked: " + title(visit.number()) + ", " + gap(visit));
      }
    }
    reevaluation().ifPresent(detail -> activities.addObject().set("detail", detail));
    plan.put("created", course.asked().toString());
  }

  private static String visits(int number) {
    return number == 1 ? "1 visit" : number + " visits";
  }

  private boolean over(List<Booking> bookings) {
    return course.visits().stream()
        .allMatch(
            visit ->
                bookings.stream()
                    .anyMatch(
                        booking ->
                            booking.visit() == visit.number()
                                && booking.status() == BookingStatus.DONE));
  }

  private String gap(VisitRequest visit) {
    StringBuilder gap = new StringBuilder(visit.minutes() + " minutes");
    if (visit.gapMaxDays() > 0) {
      gap.append(", ").append(visit.gapMinDays()).append(" to ").append(course.gapMaxDays(visit));
      gap.append(" days after the visit before");
    }
    for (CourseRequest.Deadline deadline : course.deadlines()) {
      if (deadline.to() == visit.number()) {
        gap.append(", at most ").append(deadline.days()).append(" days after visit ");
        gap.append(deadline.from());
      }
    }
    return gap.toString();
  }

  /** From the first standing booking to the last one, by the calendar of the practice. */
  private Optional<ObjectNode> period(List<Booking> bookings) {
    List<LocalDate> days =
        bookings.stream()
            .filter(booking -> booking.status().takesTime())
            .map(booking -> day(booking.start()))
            .sorted()
            .toList();
    if (days.isEmpty()) {
      return Optional.empty();
    }
    ObjectNode period = NODES.objectNode();
    period.put("start", days.get(0).toString());
    period.put("end", days.get(days.size() - 1).toString());
    return Optional.of(period);
  }

  /** When to re-evaluate; known once the last visit stands in the diary. */
  private Optional<ObjectNode> reevaluation() {
    VisitRequest last = course.visits().get(course.visits().size() - 1);
    return diary
        .standing(course.caseName(), last.number())
        .map(
            booking -> {
              LocalDate from = day(booking.start());
              ObjectNode detail = NODES.objectNode();
              detail.put("kind", "Appointment");
              detail.put("status", "not-started");
              ObjectNode when = detail.putObject("scheduledPeriod");
              when.put("start", from.plusWeeks(course.reevaluateFromWeeks()).toString());
              when.put("end", from.plusWeeks(course.reevaluateToWeeks()).toString());
              detail.put("description", "Periodontal re-evaluation");
              return detail;
            });
  }

  private void appointment(Booking booking) {
    ObjectNode appointment = resource("Appointment", booking.id());
    narrative(appointment, title(booking.visit()) + ", " + booking.minutes() + " minutes");
    identifier(appointment, "Appointment", booking.id());
    appointment.put("status", status(booking.status()));
    // R4's constraint app-4 spells the status of who did not come otherwise than R4's own code, and
    // so allows them no reason.
    if (booking.status() == BookingStatus.CANCELLED) {
      reason(appointment, booking);
    }
    appointment.put("description", title(booking.visit()));
    appointment.put("start", written(booking.start()));
    appointment.put("end", written(booking.end()));
    appointment.put("minutesDuration", booking.minutes());
    ArrayNode participants = appointment.putArray("participant");
    String patient = booking.status() == BookingStatus.HELD ? "needs-action" : "accepted";
    participant(participants, reference("Patient", course.caseName()), patient);
    participant(participants, reference("Practitioner", booking.clinician()), "accepted");
    participant(participants, reference("Location", booking.chair()), "accepted");
    for (InjectorCall call : booking.injectors()) {
      participant(participants, reference("Practitioner", call.clinician()), "accepted");
      ((ObjectNode) participants.get(participants.size() - 1))
          .putObject("period")
          .put("start", written(booking.start().plusSeconds(60L * call.from())))
          .put("end", written(booking.start().plusSeconds(60L * call.to())));
    }
  }

  private String title(int visit) {
    return "Periodontal debridement, visit " + visit + " of " + course.lastNumber();
  }

  private static void participant(ArrayNode participants, ObjectNode actor, String answer) {
    ObjectNode participant = participants.addObject();
    participant.set("actor", actor);
    participant.put("required", "required");
    participant.put("status", answer);
  }

  /**
   * By the definitions of R4's AppointmentStatus. What is held takes the time of clinician and
   * chair, and only the patient has not been promised it: "some or all of the participants have not
   * finalized their acceptance", which is pending. Of what is proposed, nobody has accepted and the
   * time may be open; who is on the waitlist has an appointment and waits for an earlier one.
   */
  private static String status(BookingStatus status) {
    return switch (status) {
      case HELD -> "pending";
      case PROMISED -> "booked";
      case DONE -> "fulfilled";
      case CANCELLED -> "cancelled";
      case MISSED -> "noshow";
    };
  }

  private void patient() {
    ObjectNode patient = resource("Patient", course.caseName());
    narrative(patient, "Case " + BidiText.isolated(course.caseName()));
    ArrayNode identifiers = identifier(patient, "Patient", course.caseName());
    identifiers.addObject().put("system", system("Case")).put("value", text(course.caseName()));
  }

  private void practitioner(Clinician clinician) {
    ObjectNode practitioner = resource("Practitioner", clinician.id());
    narrative(practitioner, BidiText.isolated(clinician.name()));
    identifier(practitioner, "Practitioner", clinician.id());
    practitioner
        .putArray("name")
        .addObject()
        .put("text", text(BidiText.isolated(clinician.name())));
  }

  private void location(Chair chair) {
    ObjectNode location = resource("Location", chair.id());
    narrative(location, BidiText.isolated(chair.name()));
    identifier(location, "Location", chair.id());
    location.put("name", text(BidiText.isolated(chair.name())));
  }

  private ArrayNode identifier(ObjectNode resource, String type, String key) {
    ArrayNode identifiers = resource.putArray("identifier");
    identifiers.addObject().put("system", system(type)).put("value", value(type, key));
    return identifiers;
  }

  /** People and chairs of the practice are known by their ids; what is of a patient is not. */
  private String value(String type, String key) {
    return switch (type) {
      case "Practitioner", "Location" -> text(key);
      default -> names.digits("fhir " + type, key);
    };
  }

  /** An identifier's system: an address made from what it names. */
  private static String system(String type) {
    byte[] name = ("quadrille system " + type).getBytes(StandardCharsets.UTF_8);
    return "urn:uuid:" + UUID.nameUUIDFromBytes(name);
  }

  /** By the code system that R4 names for it (version 4.0.1, codes from memory). */
  private void reason(ObjectNode appointment, Booking booking) {
    Why why = Journal.calledOff(diary, booking.id()).orElse(null);
    String code =
        why == null
            ? "other"
            : switch (why) {
              case PATIENT_ASKED, PATIENT_ILL, PATIENT_MISSED, HOLD_OVER -> "pat";
              case CLINICIAN_AWAY, PRACTICE_CLOSED, PLAN_CHANGED, MAKES_ROOM -> "prov";
              case EQUIPMENT -> "maint";
              case MISTAKE -> "oth-err";
              case MEDICAL, FOLLOWS_ITS_COURSE, NOTHING_BEFORE, OTHER -> "other";
            };
    appointment
        .putObject("cancelationReason")
        .putArray("coding")
        .addObject()
        .put("system", "http://terminology.hl7.org/CodeSystem/appointment-cancellation-reason")
        .put("code", code);
  }

  private ObjectNode resource(String type, String key) {
    ObjectNode entry = entries.addObject();
    entry.put("fullUrl", address(type, key));
    ObjectNode resource = entry.putObject("resource");
    resource.put("resourceType", type);
    entry
        .putObject("request")
        .put("method", "PUT")
        .put(
            "url",
            type
                + "?identifier="
                + URLEncoder.encode(system(type) + "|" + value(type, key), StandardCharsets.UTF_8));
    return resource;
  }

  private ObjectNode reference(String type, String key) {
    ObjectNode reference = NODES.objectNode();
    reference.put("reference", address(type, key));
    return reference;
  }

  private String address(String type, String key) {
    return "urn:uuid:" + names.uuid("fhir " + type, key);
  }

  private static void narrative(ObjectNode resource, String text) {
    ObjectNode narrative = resource.putObject("text");
    narrative.put("status", "generated");
    narrative.put(
        "div", "<div xmlns=\"http://www.w3.org/1999/xhtml\">" + escaped(text(text)) + "</div>");
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }

  /** Strings of FHIR hold no control characters, are not blank, and do not begin with a space. */
  private static String text(String value) {
    String plain = value.replaceAll("\\p{Cntrl}", " ").strip();
    return plain.isEmpty() ? "-" : plain;
  }

  private LocalDate day(Instant time) {
    return LocalDate.ofInstant(time, diary.zone());
  }

  private String written(Instant time) {
    return SECONDS.format(time.atZone(diary.zone()));
  }

  private static String written(ObjectNode bundle) {
    return JsonLayout.text(JSON.convertValue(bundle, new TypeReference<Map<String, Object>>() {}));
  }
}
