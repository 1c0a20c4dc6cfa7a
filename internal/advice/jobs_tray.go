package advice

import (
	"slices"

	"trayside/internal/record"
)

// trayJobs is what the forecast of the trays asks for: to bed the next one before
// the fed one is full, to stop feeding it when it is, and to harvest one that is
// ready. job names the bin and the tray that takes food.
func (a *Advice) trayJobs(r *run, job Job) []Job {
	var jobs []Job
	stack := a.stackOf(r.bin)
	for _, id := range slices.Backward(stack) {
		b, ok := a.batchOn(id, a.day)
		if !ok {
			continue
		}
		switch b.StageOn(a.day) {
		case record.InUse:
			if id != r.takes {
				continue
			}
			above := slices.Index(stack, id) + 1
			waiting := above < len(stack) && a.stageOn(stack[above], a.day) == record.Bedded
			o := a.outlook(a.trays[id], b)
			switch ended := o.Ends != "" && o.NextTray.Known; {
			case waiting && ended && (o.Full.Known && o.Full.Mid <= a.day || !o.Full.Known && o.NextTray.Mid <= a.day):
				job.Kind, job.Batch = JobRest, b.ID
				jobs = append(jobs, job)
			case !waiting && ended && o.NextTray.Mid <= a.day:
				job.Kind = JobBedNext
				if above < len(stack) && a.stageOn(stack[above], a.day) == record.Emptied && len(b.Bedding) > 0 {
					job.Next, job.NextName, job.Items = stack[above], a.trayName(stack[above]), a.itemViews(b.Bedding)
				}
				jobs = append(jobs, job)
			}
		case record.Resting, record.Ready:
			if o := a.outlook(a.trays[id], b); b.StageOn(a.day) == record.Ready || o.Ready.Known && o.Ready.Mid <= a.day {
				jobs = append(jobs, Job{Kind: JobHarvest, Bin: r.bin.ID, Tray: id, Name: a.trayName(id)})
			}
		}
	}
	return jobs
}

// again lists the trays with trouble whose day to look again has come.
func (a *Advice) again(r *run) []Job {
	var jobs []Job
	for _, id := range slices.Backward(a.stackOf(r.bin)) {
		if n, ok := a.trouble(r, id, a.day, r.est); ok && n.result.Look <= a.day {
			jobs = append(jobs, Job{
				Kind: JobAgain, Bin: r.bin.ID, Tray: id, Name: a.trayName(id),
				Days: int(a.day - n.look.Day), Day: n.result.Look.String(),
			})
		}
	}
	return jobs
}
