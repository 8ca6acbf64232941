package quadrille.diary.book;

import java.util.List;
import quadrille.document.Withers;

/**
 * Someone who treats patients.
 *
 * @param id short, for commands and files
 * @param name as patients know them
 * @param may what they may do beside what everybody may
 * @param hours the usual week; without any, they work extra days only
 * @param extra days or hours worked beside the usual week; breaks of the week do not hold there
 * @param off leave and other absence; goes before hours and extra days
 */
@Withers
public record Clinician(
    String id,
    String name,
    List<Capability> may,
    List<WeeklyHours> hours,
    List<ExtraHours> extra,
    List<TimeOff> off)
    implements ClinicianBuilder.With {

  public Clinician {
    may = List.copyOf(may);
    hours = List.copyOf(hours);
    extra = List.copyOf(extra);
    off = List.copyOf(off);
  }

  public boolean mayInject() {
    return may.contains(Capability.INJECT);
  }

  /** Whether they may do all of it. */
  public boolean may(List<Capability> needs) {
    return may.containsAll(needs);
  }
}
