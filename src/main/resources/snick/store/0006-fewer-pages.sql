-- A cut writes a page of each index it is in: those that no question uses are gone. A recording is
-- looked up by rig and start when a package comes in.

DROP INDEX cut_of_recording_by_time;
DROP INDEX force_of_calibration;
DROP INDEX recording_of_rig;
CREATE INDEX recording_of_rig_by_start ON recording (rig, started_at_utc_ns);
