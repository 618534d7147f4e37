// SPDX-License-Identifier: ISC
/* commands.h - what the program can be asked to do; each returns its exit
   status: 0 done, 1 asked wrongly, 2 it could not be done. */
#pragma once

#include "request.h"

enum { DONE, ASKED_WRONGLY, FAILED };

int command_render(const Request* request);
int command_list(const Request* request);
int command_show(const Request* request);
int command_chart(const Request* request);
int command_practice(const Request* request);
int command_check(const Request* request);
