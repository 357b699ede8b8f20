package snick.store;

import snick.store.database.Database;
import snick.store.table.AmendmentTable;
import snick.store.table.BladeTable;
import snick.store.table.CalibrationTable;
import snick.store.table.CutTable;
import snick.store.table.EntryTable;
import snick.store.table.EvidenceTable;
import snick.store.table.FilamentLotTable;
import snick.store.table.ForceTable;
import snick.store.table.OriginTable;
import snick.store.table.RecordingTable;
import snick.store.table.ResponseTable;
import snick.store.table.ResultTable;
import snick.store.table.SessionTable;
import snick.store.table.StageEntryTable;

/** Every table of a store, on one connection. */
final class Tables {
  final RecordingTable recordings;
  final CutTable cuts;
  final ResultTable results;
  final ForceTable forces;
  final CalibrationTable calibrations;
  final ResponseTable responses;
  final EvidenceTable evidence;
  final OriginTable origins;
  final BladeTable blades;
  final FilamentLotTable lots;
  final SessionTable sessions;
  final EntryTable entries;
  final StageEntryTable stageEntries;
  final AmendmentTable amendments;

  Tables(Database database) {
    recordings = new RecordingTable(database);
    cuts = new CutTable(database);
    results = new ResultTable(database);
    forces = new ForceTable(database);
    calibrations = new CalibrationTable(database);
    responses = new ResponseTable(database);
    evidence = new EvidenceTable(database);
    origins = new OriginTable(database);
    blades = new BladeTable(database);
    lots = new FilamentLotTable(database);
    sessions = new SessionTable(database);
    entries = new EntryTable(database);
    stageEntries = new StageEntryTable(database);
    amendments = new AmendmentTable(database);
  }
}
