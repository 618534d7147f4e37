// SPDX-License-Identifier: ISC
#include "jobs.h"

#include <string.h>

static LV2_Worker_Status take(const LV2_Worker_Schedule_Handle handle, const uint32_t size,
                              const void* const data)
{
    Jobs* const jobs = (Jobs*)handle;
    if (jobs->count == JOBS_MAX || size > JOB_ROOM) {
        return LV2_WORKER_ERR_NO_SPACE;
    }
    Job* const job = &jobs->jobs[jobs->count++];
    job->size = size;
    memcpy(job->bytes, data, size);
    return LV2_WORKER_SUCCESS;
}

void jobs_init(Jobs* const jobs)
{
    *jobs = (Jobs){.schedule = {jobs, take}};
}

void jobs_begin(Jobs* const jobs, LilvInstance* const instance)
{
    jobs->plugin = lilv_instance_get_handle(instance);
    jobs->worker = (const LV2_Worker_Interface*)lilv_instance_get_extension_data(
        instance, LV2_WORKER__interface);
}

static LV2_Worker_Status respond(const LV2_Worker_Respond_Handle handle, const uint32_t size,
                                 const void* const data)
{
    const Jobs* const jobs = (const Jobs*)handle;
    return jobs->worker->work_response ? jobs->worker->work_response(jobs->plugin, size, data)
                                       : LV2_WORKER_ERR_UNKNOWN;
}

void jobs_do(Jobs* const jobs)
{
    for (int i = 0; jobs->worker && i < jobs->count; ++i) {
        jobs->worker->work(jobs->plugin, respond, jobs, jobs->jobs[i].size, jobs->jobs[i].bytes);
    }
    jobs->count = 0;
}
