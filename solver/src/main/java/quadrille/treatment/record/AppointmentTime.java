package quadrille.treatment.record;

import java.time.LocalDateTime;
import java.time.format.DateTimeParseException;
import quadrille.document.Node;

/** The wall-clock time of an appointment, as written in files. */
final class AppointmentTime {

  private AppointmentTime() {}

  static LocalDateTime read(Node node) {
    try {
      return LocalDateTime.parse(node.text());
    } catch (DateTimeParseException e) {
      node.fault("a day and time, such as 2026-03-09T09:30");
      return LocalDateTime.MIN;
    }
  }
}
