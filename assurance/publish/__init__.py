"""Puts the site of a case on disk: frames, pages, staging and the exchange of folders."""

from assurance.publish.frames import FrameRequest
from assurance.publish.publishing import PublishSummary, publish
from assurance.publish.site_folder import SiteFolderRefused
from assurance.site.sections import Group

__all__ = ["FrameRequest", "Group", "PublishSummary", "SiteFolderRefused", "publish"]
