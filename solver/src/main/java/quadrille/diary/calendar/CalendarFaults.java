package quadrille.diary.calendar;

import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.Place;

/** Collects the faults of one calendar file. */
record CalendarFaults(String source, Faults faults) {

  void add(int line, String within, String found, String allowed) {
    faults.add(new Place(source, line, 1, within), found, allowed);
  }

  /** Reports the value of a property. */
  void add(RawComponent.Property property, String allowed) {
    add(property.line(), property.name(), FaultWords.quote(property.value()), allowed);
  }
}
